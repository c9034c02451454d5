# One command for each thing one does here. All it needs is Python 3.11 or newer, make and git; it makes its own .venv.
#
#   make site    build the demonstration into site/
#   make serve   the same, live: http://127.0.0.1:8000 follows what you write
#   make test    every test, those in the browser too
#   make check   format, lint, types, imports, tests and a strict build of the site: what must hold before a change lands
#   make lint    the first four of these
#   make mutants what the rules catch of the faults that a tired author commits
#   make durability  whether the bench page loses a step when its browser is killed, a hundred times
#   make bench   how long a build takes and how it grows, beside a plain site of the same text
#   make clean   take away what these commands made, but for .venv and node_modules

PYTHON ?= python3
VENV   := .venv
BIN    := $(VENV)/bin
# MkDocs' theme prints a notice about its own future at each build; ours is in DEVELOPERS.md.
export NO_MKDOCS_2_WARNING := 1

.PHONY: site serve test check strict lint bench mutants durability clean tools
.DEFAULT_GOAL := site
.DELETE_ON_ERROR:

site: $(VENV)/.stamp
	@$(BIN)/benchleaf build

serve: $(VENV)/.stamp
	@$(BIN)/benchleaf serve

test: $(VENV)/.stamp node_modules/.stamp tools
	@$(BIN)/python -m pytest --quiet --numprocesses auto --dist loadgroup $(ARGS)

check: lint strict test

# A warning of ours about the demonstration, or of MkDocs about a page, a link or a setting, stops this build.
strict: $(VENV)/.stamp
	@said=$$($(BIN)/benchleaf check --strict 2>&1) || { echo "$$said"; exit 1; }
	@$(BIN)/mkdocs build --strict --quiet

# lint-imports speaks even when all is well, so what it says is kept until it is needed.
lint: $(VENV)/.stamp
	@$(BIN)/ruff format --check --quiet . || { echo "Not formatted: $(BIN)/ruff format . does it"; exit 1; }
	@$(BIN)/ruff check --quiet .
	@$(BIN)/mypy --no-error-summary
	@said=$$($(BIN)/lint-imports 2>&1) || { echo "$$said"; exit 1; }

bench: $(VENV)/.stamp
	@$(BIN)/python -m tests.bench $(ARGS)

mutants: $(VENV)/.stamp
	@$(BIN)/python -m tests.mutants $(ARGS)

durability: $(VENV)/.stamp tools
	@$(BIN)/python -m tests.durability $(ARGS)

clean:
	@rm -rf site dist build .cache .pytest_cache .mypy_cache .ruff_cache .import_linter_cache .hypothesis
	@find generator tests -name __pycache__ -prune -exec rm -rf {} +

$(VENV)/.stamp: pyproject.toml
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' \
	  || { echo "Python 3.11 or newer is needed: make PYTHON=/path/to/python3.11"; exit 1; }
	@$(PYTHON) -m venv $(VENV) || { echo "Python's venv is missing; on Debian: apt-get install python3-venv"; exit 1; }
	@$(BIN)/python -m pip install -qq --disable-pip-version-check --editable '.[dev]'
	@touch $@

# Scripts of packages are not run: one of them would fetch a Java from outside.
node_modules/.stamp: package.json package-lock.json
	@command -v npm >/dev/null || { echo "npm is missing; on Debian: apt-get install nodejs npm"; exit 1; }
	@npm ci --ignore-scripts --no-audit --no-fund --silent
	@touch $@

# What the tests drive and no registry of ours brings.
tools:
	@command -v chromium >/dev/null || { echo "Chromium is missing; on Debian: apt-get install chromium"; exit 1; }
	@command -v java >/dev/null || { echo "Java is missing; on Debian: apt-get install default-jre-headless"; exit 1; }
	@command -v node >/dev/null || { echo "Node is missing; on Debian: apt-get install nodejs"; exit 1; }
