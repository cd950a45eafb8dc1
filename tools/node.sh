#!/bin/sh
# Installs the checkers of tests/node from their lock. Node.js is the system's when it is new enough, else the one
# that comes as a Python wheel (locks/node.txt), put into .venv.
set -eu
cd "$(dirname "$0")/.."
PATH="$(pwd)/.venv/bin:$PATH"

# The range that the strictest checker asks for: 20.19 or later in its line, 22.16 or later in its line, 24 and on.
suits() {
    command -v npm >/dev/null 2>&1 && node -e '
        const [major, minor] = process.versions.node.split(".").map(Number);
        process.exit((major === 20 && minor >= 19) || (major === 22 && minor >= 16) || major >= 24 ? 0 : 1);
    ' 2>/dev/null
}

if ! suits; then
    echo "The system has no Node.js of a version that the checkers take; putting one into .venv"
    tools/env.sh site test node
    if ! suits; then
        echo "Node.js from the wheel does not run here; install Node.js 22 or newer with npm and try again" >&2
        exit 1
    fi
fi

done_file=tests/node/node_modules/.installed
key=$({ pwd; node --version; cat tests/node/package.json tests/node/package-lock.json; } | cksum)
if [ "$(cat "$done_file" 2>/dev/null)" != "$key" ]; then
    echo "Installing the checkers of tests/node with Node.js $(node --version)"
    (cd tests/node && npm ci --loglevel=error >/dev/null)
    echo "$key" > "$done_file"
fi
