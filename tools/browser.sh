#!/bin/sh
# Sees to it that the browser tests have Debian's chromium: installs it where that is allowed, else says what to do.
# Another Chromium can be named: BEADWRIGHT_CHROMIUM=/path/to/chrome make test
set -eu
browser=${BEADWRIGHT_CHROMIUM:-chromium}

runs() {
    "$browser" --version >/dev/null 2>&1
}

explain() {
    echo "The browser tests need Chromium, and $1." >&2
    echo "On Debian: apt-get install chromium. Elsewhere: install Chromium or Chrome and name it:" >&2
    echo "  make test BEADWRIGHT_CHROMIUM=/path/to/chrome" >&2
    exit 1
}

if runs; then
    exit 0
fi
[ -z "${BEADWRIGHT_CHROMIUM:-}" ] || explain "$BEADWRIGHT_CHROMIUM does not run"
command -v apt-get >/dev/null 2>&1 || explain "it is missing"

as_root=
if [ "$(id -u)" -ne 0 ]; then
    as_root="sudo -n"
    $as_root true 2>/dev/null || explain "it is missing, and installing it takes an administrator"
fi
echo "Installing chromium"
export DEBIAN_FRONTEND=noninteractive
log=$(mktemp)
trap 'rm -f "$log"' EXIT
# What apt-get says on the way (it says much) is of interest only when it fails.
if ! { $as_root apt-get -qq update && $as_root apt-get -qq install -y --no-install-recommends chromium; } >"$log" 2>&1
then
    tail -n 20 "$log" >&2
    explain "apt-get could not install it"
fi
runs || explain "the one that apt-get installed does not run"
