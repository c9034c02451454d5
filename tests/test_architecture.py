"""What holds for the code as a whole: the arrow between the stages, sizes, and a complete room for each rule."""

from __future__ import annotations

import re
import sys
from pathlib import Path

import pytest

from benchleaf.checks.rules import RULES
from tests.conftest import ROOT, run

PACKAGE = ROOT / "generator" / "benchleaf"
ROOMS = PACKAGE / "checks" / "rules"
LONGEST = 300
HEADINGS = ["What it finds", "Why it matters", "Wrong", "Right", "When to allow it"]


def ours(*patterns: str) -> list[Path]:
    """Return the files of the package and of the site's overrides whose names match."""
    folders = (PACKAGE, ROOT / "site_overrides")
    return sorted(path for folder in folders for pattern in patterns for path in folder.rglob(pattern))


def room(name: str) -> Path:
    """Return the folder of the rule *name*."""
    return ROOMS / name.replace("-", "_")


def test_arrow() -> None:
    """Each stage imports only the stages before it."""
    said = run(Path(sys.executable).with_name("lint-imports"), cwd=ROOT)

    assert said.returncode == 0, said.stdout + said.stderr


def test_no_long_file() -> None:
    """No file is longer than a reader can hold."""
    long = [path.relative_to(ROOT) for path in ours("*.py", "*.js") if path.read_text("utf-8").count("\n") > LONGEST]

    assert [] == long


def test_one_reader_of_yaml() -> None:
    """Nothing but `source` loads YAML, and even there nothing calls a loader that forgets places."""
    loads = [
        path.relative_to(ROOT)
        for path in ours("*.py")
        if re.search(r"\b(safe_load|full_load|unsafe_load|yaml\.load)\b", path.read_text("utf-8"))
    ]

    assert [] == loads


def test_each_room_is_listed() -> None:
    """Each rule's room is in the list of rules, and each rule has its room."""
    rooms = [path.name.replace("_", "-") for path in ROOMS.iterdir() if (path / "rule.py").is_file()]

    assert sorted(rooms) == sorted(RULES)


@pytest.mark.parametrize("name", list(RULES))
def test_room_is_complete(name: str) -> None:
    """A rule's room holds the rule, what an author reads, and its cases."""
    held = {path.name for path in room(name).iterdir() if path.is_file()}

    assert {"__init__.py", "rule.py", "README.md", "cases.yml"} == held


@pytest.mark.parametrize("name", list(RULES))
def test_room_says_the_same_five_things(name: str) -> None:
    """What an author reads about a rule has the same five headings, in the same order."""
    text = (room(name) / "README.md").read_text("utf-8")

    assert HEADINGS == re.findall(r"^## (.+?)\s*$", text, re.MULTILINE)
