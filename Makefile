# make demo: both editions of all plan sets under build/.  make test: everything that continuous integration runs.
MAKEFLAGS += --no-print-directory
SHELL := bash
.SHELLFLAGS := -euo pipefail -c

PYTHON ?= python3
bin := .venv/bin
sets := sewing-desk tool-tote splayed-stool lift-column

.PHONY: demo test set-up system pictures pins clean

demo: set-up
	@for set in $(sets); do $(bin)/planbook draft $$set --out build/$$set; done
	@echo
	@echo "The plan sets are here:"
	@ls build/*/*.pdf | sed "s|^|  $(CURDIR)/|"

test: set-up
	@$(bin)/ruff check .
	@$(bin)/ruff format --check .
	@$(bin)/mypy
	@$(bin)/lint-imports
	@$(bin)/pytest -n 2

set-up: system .venv/ready

system:
	@.ci/system $(PYTHON)

.venv/ready: pyproject.toml constraints.txt
	@echo "Setting up .venv (a minute or two the first time)"
	@test -x $(bin)/python || $(PYTHON) -m venv .venv
	@$(bin)/python -m pip install -qq --disable-pip-version-check -c constraints.txt -e '.[test]'
	@touch $@

# The README's pictures, from the demo's plan sets.
pictures: demo
	@$(bin)/python docs/pictures/renew.py

# Newest versions that pyproject.toml allows, resolved in an environment of their own; run the tests before committing.
pins: system
	@rm -rf build/pins && $(PYTHON) -m venv build/pins
	@build/pins/bin/python -m pip install -qq --disable-pip-version-check -e '.[test]'
	@build/pins/bin/python -m pip freeze --exclude-editable > constraints.txt
	@rm -rf build/pins

clean:
	@rm -rf build .venv
