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

lock locks/site.txt pyproject.toml --all-extras --group build
lock locks/test.txt pyproject.toml --all-extras --group build --group test --constraints locks/site.txt
lock locks/bench.txt --group bench
lock locks/audit.txt --group audit --constraints locks/test.txt
lock locks/node.txt --group node

# The lock of the checkers. It is made in an empty folder, since npm would leave out the hashes of packages that are
# installed; .npmrc keeps registry addresses out, and whom to give money is not for a lock.
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cp tests/node/package.json tests/node/.npmrc "$work"
(cd "$work" && npm install --package-lock-only --silent)
node -e '
    const fs = require("node:fs");
    const lock = JSON.parse(fs.readFileSync(process.argv[1], "utf8"));
    for (const entry of Object.values(lock.packages)) delete entry.funding;
    fs.writeFileSync(process.argv[2], JSON.stringify(lock, null, 2) + "\n");
' "$work/package-lock.json" tests/node/package-lock.json
