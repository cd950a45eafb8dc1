#!/bin/sh
# Writes the lock files anew from pyproject.toml: hashes, no index address, one file for all supported Pythons.
# Needs npm, and uv from the environment or from UV=path.
set -eu
cd "$(dirname "$0")/.."
UV=${UV:-uv}
if ! command -v "$UV" >/dev/null 2>&1; then
    echo "make locks needs uv: install it (pip install uv) and try again, or say UV=path/to/uv" >&2
    exit 1
fi

# --no-config and the cleared variables keep this machine's own indexes and constraints out of the result.
lock() {
    out=$1
    shift
    env -u UV_FIND_LINKS -u UV_CONSTRAINT -u PIP_FIND_LINKS -u PIP_CONSTRAINT \
        "$UV" pip compile --quiet --no-config --universal --python-version 3.11 --generate-hashes \
        --no-emit-index-url --no-emit-find-links --no-header "$@" --output-file "$out"
}

lock locks/site.txt pyproject.toml --group build
lock locks/test.txt pyproject.toml --group build --group test --constraints locks/site.txt
lock locks/bench.txt --group bench
lock locks/node.txt --group node

# The lock of the checkers names versions and hashes; tests/node/.npmrc keeps the addresses out.
(cd tests/node && rm -f package-lock.json && npm install --package-lock-only --silent)
