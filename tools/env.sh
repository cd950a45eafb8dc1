#!/bin/sh
# Makes .venv from the hashed locks: `tools/env.sh site`, `tools/env.sh site test`, `tools/env.sh site test bench`.
# What was installed is remembered by content (lock, project file), so a second run does nothing.
set -eu
cd "$(dirname "$0")/.."
venv=.venv

# An environment knows the folder it was made in, so one that was moved or copied is made anew.
if [ "$(cat "$venv/.made-in" 2>/dev/null)" != "$(pwd)" ] || ! "$venv/bin/python" -c 'import pip' >/dev/null 2>&1; then
    python=$("$(pwd)/tools/python.sh")
    echo "Making the environment in $venv with $("$python" --version 2>&1)"
    rm -rf "$venv"
    "$python" -m venv "$venv"
    pwd > "$venv/.made-in"
fi
py=$venv/bin/python

install() {
    "$py" -m pip --disable-pip-version-check install --quiet --no-input "$@"
}

# $1: what it is called; $2…: what it is made from. True when the same was installed before.
fresh() {
    name=$1
    shift
    key=$(cat "$@" | cksum)
    [ "$(cat "$venv/.installed-$name" 2>/dev/null)" = "$key" ]
}

for lock in "$@"; do
    fresh "$lock" "locks/$lock.txt" && continue
    echo "Installing locks/$lock.txt"
    # No build isolation: what builds (the locked hatchling and setuptools) comes from the lock too.
    install --no-deps --require-hashes --no-build-isolation -r "locks/$lock.txt"
    echo "$key" > "$venv/.installed-$lock"
done

if ! fresh project pyproject.toml; then
    install --no-deps --no-index --no-build-isolation --editable .
    echo "$key" > "$venv/.installed-project"
fi
