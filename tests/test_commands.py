"""The commands that the documents name are the commands that there are."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest

from benchleaf.cli import commands
from tests.conftest import ROOT

if TYPE_CHECKING:
    from collections.abc import Iterator

MAKEFILE = (ROOT / "Makefile").read_text("utf-8")
DOCUMENTS = ("README.md", "DEVELOPERS.md", "Makefile", ".ci/run")
# Not commands of a person: files that stand for something made, and steps of the others.
INNER = {"strict", "tools"}


def shown(document: str) -> Iterator[str]:
    """Give what *document* shows to be typed: code in sentences, indented lines, and a script's own lines."""
    text = (ROOT / document).read_text("utf-8")
    yield from re.findall(r"`([^`\n]+)`", text)
    yield from re.findall(r"^(?: {4}|\t@?|#   )?(\S.*)$", text, re.MULTILINE)


def targets() -> set[str]:
    """Return what the Makefile can be asked for."""
    (phony,) = re.findall(r"^\.PHONY: (.+)$", MAKEFILE, re.MULTILINE)
    return set(phony.split())


@pytest.mark.parametrize("document", DOCUMENTS)
def test_make_commands_exist(document: str) -> None:
    """Each `make ...` that a document names is a target of the Makefile."""
    named = {word for line in shown(document) for word in re.findall(r"^make ([a-z]+)\b", line)}

    assert set() == named - targets()


def test_each_target_is_explained() -> None:
    """The Makefile's head says what each of its targets is for."""
    explained = set(re.findall(r"^#   make ([a-z]+) ", MAKEFILE, re.MULTILINE))

    assert targets() - INNER == explained


@pytest.mark.parametrize("document", ["README.md", "DEVELOPERS.md"])
def test_our_commands_exist(document: str) -> None:
    """Each `benchleaf ...` that a document names is a command of ours."""
    named = {word for line in shown(document) for word in re.findall(r"(?:^|/)benchleaf ([a-z]+)\b", line)}

    assert set() == named - set(commands.commands)


def test_each_command_is_in_the_readme() -> None:
    """The README names each command of ours."""
    text = (ROOT / "README.md").read_text("utf-8")

    assert [] == [name for name in commands.commands if f"`benchleaf {name}" not in text]


def test_ci_runs_what_the_readme_says() -> None:
    """What CI runs to test is the command that the README gives to a person."""
    assert "`make test`" in (ROOT / "README.md").read_text("utf-8")
    assert re.search(r"^make test\b", (ROOT / ".ci" / "run").read_text("utf-8"), re.MULTILINE)
