# topheavy: `make demo` runs the main job on the built-in gym, `make test` passes every test.
# Both set up their own virtual environment first; only Python 3.11 or later and make are needed.

PYTHON ?= python3
BIN := .venv/bin
PINS := requirements/pins.txt

.PHONY: help demo test lint bench docs clean
.DEFAULT_GOAL := help

help: ## say what each target does
	@grep -E '^[a-z-]+:.*## ' $(MAKEFILE_LIST) | sed -E 's/:.*## /\t/' | expand -t 12

.venv/.run: pyproject.toml $(PINS)
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11) and "topheavy needs Python 3.11 or later; got " + sys.version.split()[0] + ". Try: make PYTHON=python3.12 demo")'
	$(PYTHON) -m venv .venv
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --constraint $(PINS) --editable .
	@touch $@

.venv/.dev: .venv/.run requirements/dev.txt
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --constraint $(PINS) --requirement requirements/dev.txt
	@touch $@

demo: .venv/.run ## set up, then find a rig for the built-in gym; card and picture go to demo-out/
	@$(BIN)/topheavy demo --out demo-out

test: lint ## set up, then run style, types, contracts and every test
	$(BIN)/python -m pytest --numprocesses auto

lint: .venv/.dev ## style, types and import contracts
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .
	$(BIN)/mypy
	$(BIN)/lint-imports

bench: .venv/.dev ## measure speed; ratios against references run side by side
	$(BIN)/python -m benchmarks

docs: .venv/.dev ## write the generated pages of the docs anew
	$(BIN)/python -m docs.generate

clean: ## remove the virtual environment and what the demo wrote
	rm -rf .venv demo-out
