"""The whole plan, line by line, to each of its ends."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.decisions.follow import Follow, drawn
from benchleaf.decisions.plan import Ask, Cure
from benchleaf.decisions.reason import percent
from benchleaf.pages.compose.isolation.wording import minutes, money
from benchleaf.pages.compose.wording import capital, held
from benchleaf.pages.isolation import PlanLine
from benchleaf.pages.parts import Link, words

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from benchleaf.decisions.diagnose import Answer
    from benchleaf.decisions.follow import Line
    from benchleaf.decisions.plan import Plan
    from benchleaf.decisions.pose import Posed

MOST_LINES = 300
_DEEPEST = 9


def lines(answer: Answer, plan: Plan, posed: Posed, link: Callable[[str], Link]) -> tuple[tuple[PlanLine, ...], str]:
    """Return the lines of *plan*, and what is said where some ways are not written out; *link* leads to a cure."""
    found, lightest = drawn(Follow(posed.clock), plan.first, MOST_LINES)
    said = f"Ways that fewer than {100 * lightest:g} % of all units go are not written out: the rows above tell them, "
    said += "and `benchleaf diagnose` with what was seen."
    return tuple(_numbered(answer, posed, found, link)), said if lightest else ""


def _numbered(answer: Answer, posed: Posed, found: tuple[Line, ...], link: Callable[[str], Link]) -> Iterator[PlanLine]:
    counts: list[int] = []
    for line in found:
        counts = [*counts[: line.depth + 1], *[0] * (line.depth + 1 - len(counts))]
        counts[-1] += 1
        yield _line(answer, posed, line, ".".join(map(str, counts)), link)


def _line(answer: Answer, posed: Posed, line: Line, number: str, link: Callable[[str], Link]) -> PlanLine:
    when = _when(answer, line)
    depth, chance = str(min(line.depth, _DEEPEST)), held(percent(line.chance))
    if line.node is None:
        return PlanLine(depth, number, when, words("Seldom: go on by the rows above"), chance=chance)
    if isinstance(line.node, Ask):
        test = next(test for test in answer.diagnosis.tests if test.id == line.node.test)
        do = words(Link(posed.titles["test", test.id], f"#test-{test.id}"))
        return PlanLine(depth, number, when, do, test.access.text, chance, minutes(line.after))
    if isinstance(line.node, Cure):
        own = line.node.procedure
        level = next(posed.levels[cure.level] for cure in posed.problem.cures if cure.id == own)
        do = words(link(own), f", works in {held(percent(line.node.success))}")
        ends = f"Cured: {held(percent(line.cured))}"
        return PlanLine(depth, number, when, do, level, chance, minutes(line.after), ends)
    do = words(f"{capital(line.node.title)}, {money(line.node.cost, answer.currency)}")
    return PlanLine(depth, number, when, do, "", chance, minutes(line.after), "Ends here")


def _when(answer: Answer, line: Line) -> str:
    """Return what leads to *line*."""
    if line.depth == 0:
        return ""
    if line.outcome == "":
        return "If not"
    return next(
        one.title.text for test in answer.diagnosis.tests if test.id == line.asked for one in test.outcomes
        if one.id == line.outcome
    )  # fmt: skip
