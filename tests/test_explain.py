"""`benchleaf explain` and the pages of the rules: the same words in the terminal and on the site."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest
from bs4 import BeautifulSoup
from click.testing import CliRunner

from benchleaf import cli
from benchleaf.checks.rules import RULES

if TYPE_CHECKING:
    from pathlib import Path

_LINK = re.compile(r"\]\([^)]*\)|^\[\w+\]: .*$", re.MULTILINE)


def explained(*arguments: str) -> str:
    """Return what the command prints."""
    return CliRunner().invoke(cli.commands, ["explain", *arguments]).stdout


def words(text: str) -> list[str]:
    """Return the words and numbers of *text*, without the signs between them."""
    return re.findall(r"\w+", _LINK.sub("]", text).replace("```yaml", ""))


def test_list() -> None:
    """Without a name, every rule stands on a line with its weight."""
    assert [[name, str(rule.level)] for name, rule in RULES.items()] == [
        line.split() for line in explained().splitlines()
    ]


def test_all() -> None:
    """All rules are explained one after the other, in the order of the list, each as it is by itself."""
    assert explained("--all") == "\n\n".join(explained(name).rstrip() for name in RULES) + "\n"


@pytest.mark.parametrize("rule", RULES)
def test_page_says_the_same(rule: str, demo_site: Path) -> None:
    """The rule's page on the site holds what the command prints, word for word, and the weight that it lists."""
    page = BeautifulSoup((demo_site / "rules" / f"{rule}.html").read_text("utf-8"), "html.parser").find("article")
    assert page is not None
    shown, said = words(page.get_text(" ")), words(explained(rule))
    heading = words(rule)

    start = shown.index("What")
    assert said[: len(heading)] == heading
    assert f"A {RULES[rule].level}:".replace("A error", "An error") in page.get_text()
    assert said[len(heading) :] == shown[start : start + len(said) - len(heading)]
