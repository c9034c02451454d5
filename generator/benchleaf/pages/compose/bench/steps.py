"""The steps of one procedure as the bench shows them: the same limits and messages as on its sheet, and no links."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING

from benchleaf.derive.numbering import LETTERS
from benchleaf.derive.ways import Again, Elsewhere, Halt
from benchleaf.model.step import Repeat
from benchleaf.pages.bench import Asked, BenchStep, Standing, Timed
from benchleaf.pages.compose.bench.way import asked, timer
from benchleaf.pages.compose.procedure import sheet_rows
from benchleaf.pages.compose.wording import capital, held, tied
from benchleaf.pages.parts import Only, words
from benchleaf.units import show

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from benchleaf.derive.callouts import Callout
    from benchleaf.derive.ways import Node
    from benchleaf.model.procedure import Procedure
    from benchleaf.model.step import Check, Step
    from benchleaf.pages.compose.site import Site
    from benchleaf.pages.parts import SafetyMessage, Words
    from benchleaf.pages.sheet import Limit, Row

_LABELS = {
    "heat": "Heat", "joint": "Joint", "torque": "Torque", "count": "Screws", "amount": "Amount", "time": "Time",
    "neighbour": "Beside it", "supply": "Supply",
}  # fmt: skip
_FEW = 2
"""With more messages than these, or with as many limits beside a message, a step fills the screen (measured)."""
_GRAVE = ("danger", "warning")
"""Only these are said again while they stay in force: what is always said is not heard (common practice, no source)."""


class Steps:
    """Draws the steps of one procedure."""

    def __init__(
        self, site: Site, procedure: Procedure, label: Callable[[Procedure, str], str], *, elsewhere: bool
    ) -> None:
        """Hold what all steps share; *elsewhere* says that the page is another procedure's."""
        self._site, self._procedure, self._label, self._elsewhere = site, procedure, label, elsewhere
        self._rows = sheet_rows(site, procedure)
        self._order = {step: number for number, step in enumerate(self._rows)}
        self._callouts = [one for one in site.outcome(procedure).callouts if one[0].signal in _GRAVE]
        following = list(self._rows.values())
        self._next = {row.step: after for row, after in pairwise(following)}

    def step(self, node: Node, state: str) -> BenchStep:
        """Return the step of *node*, whose board is *state* in words."""
        step, row = self._site.step(self._procedure, node.step), self._rows[node.step]
        name = f"{self._procedure.id}/{step.id}" if self._elsewhere else step.id
        after = self._next.get(step.id)
        return BenchStep(
            step=name,
            anchor=f"step-{name.replace('/', '--')}",
            phase=LETTERS[node.kind],
            number=row.number,
            do=row.do,
            elsewhere=self._procedure.title.text if self._elsewhere else "",
            marks=row.marks,
            uses=_plain(row.uses),
            why=row.why,
            records=(step.record,) if step.record else (),
            cautions=tuple(_at_the_bench(message) for message in row.cautions),
            standing=tuple(self._standing(step)),
            limits=tuple((_LABELS.get(limit.kind, capital(limit.kind)), _unlinked(limit)) for limit in row.limits),
            check=self._check(node, step.check, row),
            timer=_timed(step),
            pictures=row.pictures,
            after=f"{after.number} {after.do}" if after else "",
            state=state,
            only=row.only,
            dense=len(row.cautions) > _FEW or (bool(row.cautions) and len(row.limits) > _FEW),
        )

    def _standing(self, step: Step) -> Iterator[Standing]:
        here = self._order[step.id]
        for one, variants in self._callouts:
            if self._order.get(one.step, here) < here <= self._order.get(one.until, -1):
                yield Standing(one.signal.upper(), one.signal, one.hazard, _short(one), self._only(variants))

    def _only(self, variants: tuple[str, ...]) -> Only | None:
        return Only(" ".join(variants), "") if variants else None

    def _check(self, node: Node, check: Check | None, row: Row) -> Asked | None:
        drawn = row.check
        if check is None or drawn is None:
            return None
        data = asked(self._site, check)
        notes = [_plain(note) for note in drawn.notes]
        way_on = self._way_on(node, check)
        if data["kind"] == "look":
            return Asked(
                "look", "Look", data["ask"], tuple(notes) if check.kind == "look" else tuple(notes[1:]), "", way_on
            )
        label = capital(", ".join(notes[:2]) if check.instrument else notes[0])
        rest = notes[2:] if check.instrument else notes[1:]
        return Asked("reading", label, held(data["limits"]), tuple(rest), data["unit"], way_on)

    def _way_on(self, node: Node, check: Check) -> str:
        match node.fail:
            case Again(step=step):
                times = check.if_not.times if isinstance(check.if_not, Repeat) else 1
                most = f", {times} times at most" if times > 1 else ""
                said = f"repeat from {self._label(self._procedure, step)}{most}"
                then = check.if_not.then if isinstance(check.if_not, Repeat) else None
                return f"{said}; if it fails again: {self._target(then)}" if then else f"{said}, then stop"
            case Halt(text=text):
                return f"stop. {text}"
            case Elsewhere(procedure=name):
                return f"go on from here with {self._title(name)}"
            case None:
                return ""
            case _:
                return f"go to {self._title(node.fail.procedure)}"

    def _target(self, then: object) -> str:
        text = getattr(then, "text", None)
        return f"stop. {text}" if text is not None else f"go to {self._title(str(getattr(then, 'procedure', '')))}"

    def _title(self, name: str) -> str:
        target = self._site.base.target(self._procedure, name)
        return target.title.text if target else name


def _timed(step: Step) -> Timed | None:
    data, lasts = timer(step), getattr(step.action, "lasts", None)
    return Timed(data["kind"], data["label"], show.tidy(lasts.text)) if data and lasts else None


def _short(one: Callout) -> str:
    return f"{one.what} {one.avoid}".strip()


def _plain(line: Words) -> str:
    return "".join(piece.text for piece in line)


def _at_the_bench(message: SafetyMessage) -> SafetyMessage:
    what, happens, avoid = (tied(text) for text in (message.what, message.happens, message.avoid))
    return replace(message, what=what, happens=happens, avoid=avoid, computed=None)


def _unlinked(limit: Limit) -> Limit:
    """Return *limit* without links: at the bench nothing small may be pressed by chance."""
    return replace(limit, strong=tied(limit.strong), notes=tuple(words(tied(_plain(note))) for note in limit.notes))
