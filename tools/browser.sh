#!/bin/sh
# Sees to it that tests have Debian's chromium, the library that its driver needs, and liblouis: installs them
# where that is allowed, else says what to do. Another Chromium can be named: BEADWRIGHT_CHROMIUM=/path make test
set -eu
cd "$(dirname "$0")/.."
browser=${BEADWRIGHT_CHROMIUM:-chromium}
driver=.venv/bin/playwright

browser_runs() {
    "$browser" --version >/dev/null 2>&1
}

# Playwright brings a Node.js of its own, which asks for a library that a small system lacks.
driver_runs() {
    "$driver" --version >/dev/null 2>&1
}

# A second browser runs the same tasks. Without it those tests are skipped, and say so.
bring_firefox() {
    if command -v firefox-esr >/dev/null 2>&1 || command -v firefox >/dev/null 2>&1; then return 0; fi
    if [ -n "${BEADWRIGHT_FIREFOX:-}" ] || ! command -v apt-get >/dev/null 2>&1; then return 0; fi
    as=
    if [ "$(id -u)" -ne 0 ]; then as="sudo -n"; fi
    echo "Installing firefox-esr"
    if ! { $as apt-get -qq update && DEBIAN_FRONTEND=noninteractive $as apt-get -qq install -y \
        --no-install-recommends firefox-esr; } >/dev/null 2>&1
    then
        echo "firefox-esr could not be installed: its tests will be skipped"
    fi
}

explain() {
    echo "The tests need Chromium and liblouis, and $1." >&2
    echo "On Debian: apt-get install chromium libatomic1 liblouis-bin. Elsewhere: install liblouis (its command" >&2
    echo "lou_translate), and Chromium or Chrome, which is named so:" >&2
    echo "  make test BEADWRIGHT_CHROMIUM=/path/to/chrome" >&2
    exit 1
}

bring_firefox
missing=
if ! browser_runs; then
    [ -z "${BEADWRIGHT_CHROMIUM:-}" ] || explain "$BEADWRIGHT_CHROMIUM does not run"
    missing=chromium
fi
driver_runs || missing="${missing:+$missing }libatomic1"
command -v lou_translate >/dev/null 2>&1 || missing="${missing:+$missing }liblouis-bin"
[ -n "$missing" ] || exit 0
command -v apt-get >/dev/null 2>&1 || explain "this is missing: $missing"

as_root=
if [ "$(id -u)" -ne 0 ]; then
    as_root="sudo -n"
    $as_root true 2>/dev/null || explain "this is missing, and installing it takes an administrator: $missing"
fi
echo "Installing $missing"
export DEBIAN_FRONTEND=noninteractive
log=$(mktemp)
trap 'rm -f "$log"' EXIT
# What apt-get says on the way (it says much) is of interest only when it fails. $missing is a list: no quotes.
if ! { $as_root apt-get -qq update && $as_root apt-get -qq install -y --no-install-recommends $missing; } >"$log" 2>&1
then
    tail -n 20 "$log" >&2
    explain "apt-get could not install it"
fi
browser_runs || explain "the one that apt-get installed does not run"
driver_runs || explain "Playwright, which drives it, does not run: $("$driver" --version 2>&1 | tail -n 1)"
