"""What every rule finds and what it does not: the cases of its room, and the examples that an author reads."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, TypeAlias, cast

import pytest

from benchleaf.checks.rules import RULES
from benchleaf.source.nodes import Scalar, Table
from benchleaf.source.read import read
from tests.conftest import ROOT
from tests.make import DOCS, EXAMPLE, check

if TYPE_CHECKING:
    from benchleaf.build import Checked

ROOMS = ROOT / "generator" / "benchleaf" / "checks" / "rules"
# `#   ^^^ rule-name [variants]: message`. In the first column the sign of the remark is itself the first caret, and
# `#<` is a mark of one column there.
CARETS = re.compile(r" *#(?P<gap> *)(?P<carets>\^+|<) (?P<rule>[a-z-]+)(?: \[(?P<variants>[^\]]+)\])?: (?P<message>.+)")
HELP = re.compile(r" *# +help: (?P<help>.+)")
BLOCK = re.compile(r"^```yaml\n(.*?)^```$", re.MULTILINE | re.DOTALL)
TODAY = re.compile(r"# .*--today (\S+)")
OWN_PATH = re.compile(r"# ([a-z/-]+\.yml)\n")

Files: TypeAlias = Mapping[str, str]


@dataclass(frozen=True, order=True)
class Mark:
    """A finding as a case shows it."""

    path: str
    line: int
    column: int
    end: int
    rule: str
    variants: tuple[str, ...]
    message: str
    help: str


@dataclass(frozen=True)
class Case:
    """A sentence, the files that show it, and whether something is found in them."""

    rule: str
    title: str
    bad: bool
    files: Files


def text_of(node: object) -> str:
    """Return the text of a node that holds one."""
    return cast("Scalar", node).text


def cases(rule: str) -> list[Case]:
    """Return the cases of the room of *rule*."""
    path = ROOMS / rule.replace("-", "_") / "cases.yml"
    # Our own reader: it does not pass over a title that is given twice.
    result = read(path.read_bytes(), str(path))
    assert result.document is not None, result.faults
    assert not result.faults
    return [_case(rule, entry.key.text, cast("Table", entry.value)) for entry in result.document.entries]


def _case(rule: str, title: str, node: Table) -> Case:
    (entry,) = node.entries
    assert entry.key.text in {"bad", "good"}
    if isinstance(entry.value, Table):
        files = {file.key.text: text_of(file.value) for file in entry.value.entries}
    else:
        files = {EXAMPLE: text_of(entry.value)}
    return Case(rule, title, entry.key.text == "bad", files)


def marks(files: Files) -> list[Mark]:
    """Return the findings that carets mark in *files*, below the lines meant."""
    found: list[Mark] = []
    for path, text in files.items():
        line = 0
        for number, written in enumerate(text.split("\n"), start=1):
            carets, advice = CARETS.fullmatch(written), HELP.fullmatch(written)
            if carets:
                found.append(_mark(path, line, carets))
            elif advice:
                found[-1] = replace(found[-1], help=advice["help"])
            else:
                line = number
    return sorted(found)


def _mark(path: str, line: int, match: re.Match[str]) -> Mark:
    first, end = match.start("carets") + 1, match.end("carets") + 1
    if not match["gap"]:  # The sign of the remark, one column before, belongs to the token.
        first -= 1
    if match["carets"] == "<":
        end = first + 1
    variants = tuple(match["variants"].split(", ")) if match["variants"] else ()
    return Mark(path, line, first, end, match["rule"], variants, match["message"], "")


def as_marks(checked: Checked, *, allowed: bool = True) -> list[Mark]:
    """Return what was found as a case would show it, with or without what an author has allowed."""
    return sorted(
        Mark(at.path, at.line, at.column, at.end, finding.rule, finding.variants, finding.message, finding.help)
        for finding in checked.findings
        if allowed or finding.allowed is None
        for at in [finding.place]
    )


def found_in(files: Files, *, allowed: bool = False) -> list[Mark]:
    """Return what is found in *files*, as of the day that a remark in them gives, where one does."""
    day = next((said[1] for text in files.values() if (said := TODAY.search(text))), None)
    return as_marks(check(files, dt.date.fromisoformat(day) if day else None), allowed=allowed)


def examples(rule: str, heading: str) -> Files:
    """Return the files that stand under *heading* in what an author reads about *rule*."""
    text = (ROOMS / rule.replace("-", "_") / "README.md").read_text("utf-8")
    _, _, after = text.partition(f"\n## {heading}\n")
    section = re.split(r"^## ", after, flags=re.MULTILINE)[0]
    files = {}
    for block in BLOCK.findall(section):
        own = OWN_PATH.match(block)
        files[f"{DOCS}/{own[1]}" if own else EXAMPLE] = block
    return files


EVERY = [case for rule in RULES for case in cases(rule)]


def name(case: Case) -> str:
    """Return what a test of *case* is called."""
    return f"{case.rule}: {case.title}"


@pytest.mark.parametrize("case", [case for case in EVERY if case.bad], ids=name)
def test_bad_case(case: Case) -> None:
    """Everything that is wrong is found where the carets stand, in the words beside them, and nothing else is."""
    found = found_in(case.files, allowed=True)

    assert marks(case.files) == found


@pytest.mark.parametrize("case", [case for case in EVERY if case.bad], ids=name)
def test_bad_case_is_marked(case: Case) -> None:
    """A bad case marks a finding: one without carets would pass for nothing."""
    assert marks(case.files)


@pytest.mark.parametrize("case", [case for case in EVERY if not case.bad], ids=name)
def test_good_case(case: Case) -> None:
    """A good case gives no finding from any rule."""
    found = found_in(case.files)

    assert [] == found


@pytest.mark.parametrize("rule", RULES)
def test_room_has_cases_of_both_kinds(rule: str) -> None:
    """Each room shows what its rule finds and what it leaves alone, and its own name stands at a caret."""
    own = [case for case in EVERY if case.rule == rule]

    assert {True, False} == {case.bad for case in own}
    assert rule in {mark.rule for case in own for mark in marks(case.files)}


@pytest.mark.parametrize("rule", RULES)
def test_wrong_example(rule: str) -> None:
    """What an author reads under Wrong gives this rule's finding and no other."""
    found = found_in(examples(rule, "Wrong"))

    assert {rule} == {mark.rule for mark in found}


@pytest.mark.parametrize("rule", RULES)
def test_right_example(rule: str) -> None:
    """What an author reads under Right gives no finding from any rule."""
    files = examples(rule, "Right")

    assert files
    assert [] == found_in(files)


@pytest.mark.parametrize("rule", RULES)
def test_heading_is_the_name(rule: str) -> None:
    """What an author reads begins with the rule's name, and the rule is listed under it."""
    text = (ROOMS / rule.replace("-", "_") / "README.md").read_text("utf-8")

    assert f"# {rule}" == text.split("\n", maxsplit=1)[0]
    assert rule == RULES[rule].name


def test_small_base_is_sound() -> None:
    """The knowledge base that cases change has nothing wrong with it to begin with."""
    assert [] == as_marks(check({}))
