# Beadwright. On a fresh machine `make site` builds the course and `make test` runs every check.
.DEFAULT_GOAL := help
SHELL := /bin/sh
PY := .venv/bin/python
# Tests find the environment's own commands first, Node.js from the lock among them.
export PATH := $(CURDIR)/.venv/bin:$(PATH)
# Two workers suit the two cores this is timed on; make test WORKERS=8 uses more.
WORKERS ?= 2
export BEADWRIGHT_CHROMIUM

.PHONY: help site serve test lint env node browser prove bench locks audit versions wheel clean

help:  ## Show what there is to make
	@awk -F ':.*## ' '/^[a-z]+:.*## / { printf "  make %-8s %s\n", $$1, $$2 }' $(MAKEFILE_LIST)

site:  ## Build the course in content/ and say which file to open
	@tools/env.sh site
	@NO_MKDOCS_2_WARNING=1 $(PY) -m mkdocs build --quiet --strict
	@echo "The course is built. Open this file in a browser:"
	@echo "  $(CURDIR)/site/index.html"

serve:  ## Show the course at http://127.0.0.1:8000 and rebuild it while lessons are written
	@tools/env.sh site
	NO_MKDOCS_2_WARNING=1 $(PY) -m mkdocs serve

env:  ## Make the environment for working on Beadwright
	@tools/env.sh site test

node: env  ## Install the checkers that are written in JavaScript
	@tools/node.sh

browser: env  ## Bring Debian's chromium when it is missing
	@tools/browser.sh

lint: node  ## Check style, types and layers without running anything
	$(PY) -m ruff check .
	$(PY) -m ruff format --check .
	$(PY) -m mypy
	.venv/bin/lint-imports
	node tests/node/node_modules/typescript/bin/tsc --project tests/node

test: browser lint  ## Run every check and every test
	$(PY) -m pytest -n $(WORKERS)

prove: browser node  ## Run the whole exhaustive proof of the engine, and the checkers on everything (long)
	$(PY) -m tests.prove --processes $(WORKERS)
	$(PY) -m pytest -n $(WORKERS) -m prove

bench:  ## Measure, as ratios within one run
	@tools/env.sh site test bench
	$(PY) -m tests.bench

locks:  ## Write the lock files anew (needs uv and npm)
	tools/locks.sh

audit:  ## Ask whether a weakness is known in any locked package (needs the network)
	@tools/env.sh site test audit
	@$(PY) tools/audit.py

versions:  ## Build the course with the lowest and newest releases on every Python here (needs an index)
	@$(shell tools/python.sh) tools/versions.py

wheel:  ## Build dist/beadwright-….whl, to be installed elsewhere
	@tools/env.sh site
	$(PY) -m hatchling build -t wheel

clean:  ## Remove everything that make has made
	rm -rf .venv .cache site dist build tests/node/node_modules .pytest_cache .mypy_cache .ruff_cache \
	  .import_linter_cache .hypothesis
