# Two commands for a fresh machine: `make demo` and `make test`. The rest is for contributors.
PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
DEMO := build/demo
WIDTH ?= 3000

ONLY ?=

.PHONY: demo test test-once test-slow goldens lint bench look clean

$(VENV)/.run: pyproject.toml
	$(PYTHON) -m venv $(VENV)
	$(BIN)/pip install --quiet --upgrade pip
	$(BIN)/pip install --quiet --constraint constraints.txt --editable .
	$(BIN)/python -m compileall -q mockup  # as pip does for a package it copies
	touch $@

$(VENV)/.develop: $(VENV)/.run
	$(BIN)/pip install --quiet --constraint constraints.txt --editable '.[test,lint]'
	touch $@

$(VENV)/.bench: $(VENV)/.develop
	$(BIN)/pip install --quiet --constraint constraints.txt --editable '.[bench]'
	touch $@

demo: $(VENV)/.run  ## draw the demo suite
	$(BIN)/mockup demo $(DEMO) --width $(WIDTH)

test: $(VENV)/.develop  ## the quick tests
	$(BIN)/pytest -n auto --dist worksteal -m "not slow"

test-once: $(VENV)/.develop  ## the slow tests that run anywhere: once, before it is handed on
	$(BIN)/pytest -n auto --dist worksteal -m slow --ignore-glob="tests/render/light/test_*against_path_tracer.py"

test-slow: $(VENV)/.bench  ## what takes minutes: the light against a path tracer
	$(BIN)/pytest -rs tests/render/light/test_*against_path_tracer.py

goldens: $(VENV)/.develop  ## draw the golden pictures anew, all or `ONLY=proof`: look at each that changed
	$(BIN)/python -m tests.golden "$(ONLY)"

lint: $(VENV)/.develop  ## style, types, the way of the data
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .
	$(BIN)/pyright --pythonpath $(BIN)/python
	$(BIN)/lint-imports

bench: $(VENV)/.bench  ## ratios of time and memory, measured in one run
	$(BIN)/python -m benchmarks

look: $(VENV)/.run  ## everything a person should look at, with an index page
	$(BIN)/python -m benchmarks.look build/look

clean:
	rm -rf build $(VENV)
