"""Workflow commands of GitHub, read as its runner reads them, and the summary."""

from __future__ import annotations

from dataclasses import replace

import pytest
from markdown import markdown

from benchleaf.findings import Finding, Level, Place
from benchleaf.report import FORMATS, github
from benchleaf.report.summary import Report
from tests.faulty import faulty


def read(line: str) -> tuple[str, dict[str, str], str]:
    """
    Return command, properties and message of *line*, read in the steps in which the runner reads it.

    Source: `ActionCommand.TryParseV2` of github.com/actions/runner, src/Runner.Common: up to the next `::`, at the
    first space, at commas, at the first `=`; then the escapes, `%25` last.
    """
    line = line.lstrip()
    assert line.startswith("::")
    end = line.index("::", 2)
    command, _, written = line[2:end].partition(" ")
    pairs = (pair.split("=", 1) for pair in written.strip().split(",") if pair)
    return command, {name: _plain(value, property_=True) for name, value in pairs}, _plain(line[end + 2 :])


def _plain(text: str, *, property_: bool = False) -> str:
    escapes = {"%0D": "\r", "%0A": "\n"} | ({"%3A": ":", "%2C": ","} if property_ else {}) | {"%25": "%"}
    for escape, sign in escapes.items():
        text = text.replace(escape, sign)
    return text


def commands(report: Report) -> list[tuple[str, dict[str, str], str]]:
    """Return the commands of *report*."""
    return [read(line) for line in FORMATS["github"](report).splitlines()]


@pytest.mark.outside
def test_every_finding_that_is_not_allowed() -> None:
    """The runner reads of each finding that no author allowed its weight, place, rule, message and cure."""
    report = faulty()
    words = {"error": "error", "warning": "warning", "notice": "note"}

    found = {(words[name], at["file"], at["line"], at["col"], at["title"], said) for name, at, said in commands(report)}

    assert found == {
        (str(one.level), f"kb/{one.place.path}", str(one.place.line), str(one.place.column), one.rule,
         f"{one.message}\n{one.help}".replace("\x1b", r"\x1b"))
        for one in report.shown
    }  # fmt: skip


def test_worst_first() -> None:
    """GitHub shows the first ten of a step: what stops comes before what does not."""
    weights = [name for name, _, _ in commands(faulty())]

    assert sorted(weights, key=["error", "warning", "notice"].index) == weights


@pytest.mark.outside
@pytest.mark.parametrize(
    "odd", ["100 %", "%0A", "%25", "a: b, c", "::error::no", "one\ntwo", "a=b", "über 5 µm", "x,y:z"]
)
def test_escapes(odd: str) -> None:
    """The runner reads back what was written, in a message and in a path, whatever signs are in them."""
    place = Place(f"procedures/{odd.replace(chr(10), '_')}.yml", 1, 2, 3)
    finding = Finding("some-rule", Level.WARNING, place, odd, f"Write {odd}.")

    [(name, at, said)] = commands(Report((finding,), 1, 1, 1))

    assert ("warning", place.path, f"{odd}\nWrite {odd}.") == (name, at["file"], said)


def test_one_line_each() -> None:
    """No finding takes more than its line: what follows a line end could be a command of its own."""
    assert len(faulty().shown) == len(FORMATS["github"](faulty()).splitlines())


def test_summary() -> None:
    """The summary has the last sentence of the check and a row for each finding that no author allowed."""
    report = faulty()

    text = github.summary(report)
    page = markdown(text, extensions=["tables"])

    assert report.sentence in text
    assert len(report.shown) + 1 == page.count("<tr>")
    assert "<i>" not in page
    assert "<a " not in page


def test_summary_of_nothing() -> None:
    """Where nothing was found there is no table."""
    assert "|" not in github.summary(replace(faulty(), findings=()))


def test_summary_has_room() -> None:
    """A summary stays below what GitHub takes, and says how many findings it leaves out."""
    many = replace(faulty(), findings=faulty().findings[:1] * 9_000)

    text = github.summary(many)

    assert github.ROOM >= len(text.encode()) - 100
    assert text.count("\n| note") + int(text.rsplit("\n\n", 1)[1].split()[0]) == 9_000
