"""How hits and faults become findings: weighed, merged, sorted; and what happens when a rule of ours breaks."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from benchleaf.checks import engine
from benchleaf.checks.engine import RuleCrashed
from benchleaf.checks.rule import Hit, Rule
from benchleaf.checks.rules import RULES
from benchleaf.dryrun.performed import performed
from benchleaf.findings import Fault, Finding, Level, Place
from tests.make import check

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from benchleaf.dryrun.trace import Trace
    from benchleaf.model.knowledge import KnowledgeBase

BASE = check({}).base
HERE = Place("a.yml", 3, 5, 9)


def finding(at: Place = HERE, rule: str = "live-board", message: str = "It is live", *variants: str) -> Finding:
    """Return a finding of which only what matters is said."""
    return Finding(rule, Level.ERROR, at, message, "Isolate it.", variants)


def at(path: str, line: int, column: int) -> Place:
    """Return the place of one sign."""
    return Place(path, line, column, column + 1)


def test_fault_has_the_weight_of_its_rule() -> None:
    """A fault of an earlier stage becomes a finding with the weight of its rule, and all else as it was."""
    fault = Fault("swallowed-comment", HERE, "The text ends", "Put it in quotes.", ("w1",))

    (found,) = engine.weigh([fault], RULES)

    expected = Finding("swallowed-comment", Level.WARNING, HERE, "The text ends", "Put it in quotes.", ("w1",))
    assert expected == found


def test_fault_of_no_rule() -> None:
    """A fault under a name that is no rule's is a bug, and loud."""
    with pytest.raises(KeyError):
        list(engine.weigh([Fault("no-such-rule", HERE, "", "")], RULES))


def test_hit_has_name_and_weight_of_its_rule() -> None:
    """A hit is given its rule's name and usual weight."""
    rule = Rule("live-board", Level.ERROR, lambda _: [Hit(HERE, "It is live", "Isolate it.", ("w1",))])

    assert [finding(HERE, "live-board", "It is live", "w1")] == list(engine.run(BASE, {rule.name: rule}))


def test_hit_with_a_weight_of_its_own() -> None:
    """A hit that says how much it weighs is taken at its word."""
    rule = Rule("live-board", Level.ERROR, lambda _: [Hit(HERE, "It is live", "Isolate it.", level=Level.NOTE)])

    assert [Level.NOTE] == [found.level for found in engine.run(BASE, {rule.name: rule})]


def test_rule_without_a_check() -> None:
    """A rule whose faults are found on the way in finds nothing more by itself."""
    rule = Rule("duplicate-key", Level.ERROR)

    assert [] == list(engine.run(BASE, {rule.name: rule}))


def test_broken_rule_is_loud() -> None:
    """A rule that breaks ends the run with its name: nobody takes its silence for a sound knowledge base."""

    def broken(_: KnowledgeBase) -> Iterator[Hit]:
        yield Hit(HERE, "It is live", "Isolate it.")
        raise ZeroDivisionError

    with pytest.raises(RuleCrashed, match="live-board") as caught:
        list(engine.run(BASE, {"live-board": Rule("live-board", Level.ERROR, broken)}))

    assert isinstance(caught.value.__cause__, ZeroDivisionError)


def test_performances_seen_together() -> None:
    """A rule that compares is given all performances of a procedure at once, and names the variants itself."""
    rule = Rule("live-board", Level.ERROR, compare=lambda traces: [
        Hit(HERE, "It is live", "Isolate it.", tuple(name for trace in traces for name in trace.variants))
    ])  # fmt: skip
    traces = tuple(one for one in performed(BASE) if one.procedure.id == "replace-lamp")

    assert [finding(HERE, "live-board", "It is live", "w1", "w2")] == list(engine.compare(traces, [rule]))


def test_rule_that_breaks_when_it_compares() -> None:
    """A rule of ours that breaks over several performances is loud, and names the file."""

    def broken(_: Sequence[Trace]) -> Iterator[Hit]:
        yield Hit(HERE, "It is live", "Isolate it.")
        raise ZeroDivisionError

    with pytest.raises(RuleCrashed, match=r"live-board broke on procedures/repairs/wader/replace-lamp.yml"):
        list(engine.compare(tuple(performed(BASE)), [Rule("live-board", Level.ERROR, compare=broken)]))


def test_alike_on_several_variants() -> None:
    """Findings that differ in nothing but their variants are one, with all of these, sorted, each once."""
    several = [finding(HERE, "live-board", "It is live", *variants) for variants in (("w2",), ("w1", "w2"), ())]

    assert (finding(HERE, "live-board", "It is live", "w1", "w2"),) == engine.in_order(several)


@pytest.mark.parametrize(
    "other",
    [
        finding(message="It is hot"),
        finding(rule="hot-handling"),
        finding(at("a.yml", 3, 6)),
        finding(at("b.yml", 3, 5)),
        Finding("live-board", Level.NOTE, HERE, "It is live", "Isolate it."),
    ],
    ids=["message", "rule", "column", "file", "weight"],
)
def test_not_alike(other: Finding) -> None:
    """Findings that differ in anything else stay two."""
    assert 2 == len(engine.in_order([finding(), other]))


def test_reading_order() -> None:
    """Findings come by file, line, column and rule; lines are numbers and not text."""
    ordered = [
        finding(at("a.yml", 2, 9)),
        finding(at("a.yml", 10, 1)),
        finding(at("a.yml", 10, 2), "early-battery"),
        finding(at("a.yml", 10, 2), "live-board"),
        finding(at("b.yml", 1, 1)),
    ]

    assert ordered == list(engine.in_order(reversed(ordered)))


def test_only_errors_stop() -> None:
    """An error stops publication unless it is allowed; a warning does not."""
    stops = [
        Finding("x", level, HERE, "", "", allowed=allowed).stops
        for level, allowed in (
            (Level.ERROR, None),
            (Level.ERROR, "We know."),
            (Level.WARNING, None),
            (Level.NOTE, None),
        )
    ]

    assert [True, False, False, False] == stops
