#!/bin/sh
# Asks whether a weakness is known in any package of the locks. It needs the network, and pip-audit and npm: an answer
# from yesterday is none, so it is no part of `make test`, and where nobody can be asked it fails and says so.
set -eu
cd "$(dirname "$0")/.."
PIP_AUDIT=${PIP_AUDIT:-pip-audit}
if ! command -v "$PIP_AUDIT" >/dev/null 2>&1; then
    echo "make audit needs pip-audit: install it (pip install pip-audit) and try again, or say PIP_AUDIT=path/to/pip-audit" >&2
    exit 1
fi

failed=
for lock in locks/*.txt; do
    echo "$lock"
    # Strict: a package that nobody could tell anything about counts as not audited, and not as sound.
    "$PIP_AUDIT" --strict --disable-pip --no-deps --progress-spinner off --requirement "$lock" || failed="$failed $lock"
done
echo "tests/node/package-lock.json"
npm --prefix tests/node audit --package-lock-only || failed="$failed tests/node/package-lock.json"

if [ -n "$failed" ]; then
    echo "Known weaknesses, or no answer, for:$failed" >&2
    exit 1
fi
