#!/bin/sh
# Prints the first Python 3.11 or newer that can make a virtual environment; says what to install when there is none.
set -eu
old=
bare=
for name in ${PYTHON:-python3 python3.14 python3.13 python3.12 python3.11 python}; do
    # A version manager may offer a name that does not run, so each is tried, not only looked up.
    if ! "$name" -c 'import sys; sys.exit(sys.version_info < (3, 11))' >/dev/null 2>&1; then
        "$name" -c '' >/dev/null 2>&1 && old="$old $name"
        continue
    fi
    if "$name" -c 'import ensurepip, venv' >/dev/null 2>&1; then
        echo "$name"
        exit 0
    fi
    bare=$name
done
if [ -n "$bare" ]; then
    echo "Beadwright found $bare, but it cannot make a virtual environment." >&2
    echo "On Debian or Ubuntu: apt-get install python3-venv. Elsewhere: install Python with venv and ensurepip." >&2
else
    echo "Beadwright needs Python 3.11 or newer${old:+; too old here:$old}." >&2
    echo "On Debian or Ubuntu: apt-get install python3 python3-venv. Elsewhere: install Python 3.11 or newer," >&2
    echo "or say which one to use: make site PYTHON=/path/to/python3" >&2
fi
exit 1
