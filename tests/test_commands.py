"""The Makefile explains itself, and CI runs what a person is told to run."""

from __future__ import annotations

import re

from tests.conftest import ROOT

MAKEFILE = (ROOT / "Makefile").read_text("utf-8")
# Not commands of a person: steps of the others.
INNER = {"strict", "tools"}


def test_each_target_is_explained() -> None:
    """The Makefile's head says what each of its targets is for."""
    (phony,) = re.findall(r"^\.PHONY: (.+)$", MAKEFILE, re.MULTILINE)

    explained = re.findall(r"^#   make ([a-z]+) ", MAKEFILE, re.MULTILINE)

    assert set(phony.split()) - INNER == set(explained)


def test_ci_runs_what_the_readme_says() -> None:
    """What CI runs to test is the command that the README gives to a person."""
    assert "`make test`" in (ROOT / "README.md").read_text("utf-8")
    assert re.search(r"^make test\b", (ROOT / ".ci" / "run").read_text("utf-8"), re.MULTILINE)
