"""The graph of a procedure as data for the page's scripts; boards and trays are shared by number."""

from __future__ import annotations

import hashlib
import json
import math
from typing import TYPE_CHECKING, Any, TypeVar

from markupsafe import Markup

from benchleaf.derive.numbering import LETTERS
from benchleaf.derive.ways import Again, Elsewhere, Halt, Leave
from benchleaf.model.action import Bath, Heat, Wait
from benchleaf.pages.compose.site import number_of, page_to_work_by
from benchleaf.units import show
from benchleaf.units.dimensions import spellings
from benchleaf.units.quantity import Quantity

if TYPE_CHECKING:
    from collections.abc import Sequence

    from benchleaf.derive.ways import Fail, Node
    from benchleaf.model.procedure import Procedure
    from benchleaf.model.step import Check, Step
    from benchleaf.pages.compose.bench.board import BoardWords, Line
    from benchleaf.pages.compose.site import Site

Data = dict[str, Any]
H = TypeVar("H")
_FIGURES = 12  # More would be the error of a conversion.
_NO_SCRIPT = (("<", "\\u003c"), (">", "\\u003e"), ("&", "\\u0026"))


class WayData:
    """Writes the graphs of one procedure."""

    def __init__(self, site: Site, procedure: Procedure, words: BoardWords, root: str) -> None:
        """Hold what all ways share."""
        self._site, self._procedure, self._words, self._root = site, procedure, words, root
        self._labels: dict[str, dict[str, str]] = {}
        self._steps: dict[str, Data] = {}
        self._boards: dict[tuple[tuple[str, Line], ...], int] = {}
        self._trays: dict[tuple[tuple[str, int], ...], int] = {}

    def data(self, arrival: Data, texts: Sequence[str]) -> Markup:
        """Return all of it as JSON; *texts* are what a reader sees of the steps, of which the digest is made."""
        procedure, ways, variants = self._procedure, list[Data](), dict[str, int]()
        for names, nodes in self._site.outcome(procedure).ways:
            way = self._way(nodes)
            if way not in ways:
                ways.append(way)
            variants |= dict.fromkeys(names, ways.index(way))
        found: Data = {
            "site": self._site.site_id,
            "device": procedure.device,
            "procedure": procedure.id,
            "title": procedure.title.text,
            "number": number_of(procedure),
            "revision": procedure.revision,
            "digest": hashlib.sha256("\n".join(texts).encode()).hexdigest()[:16],
            "arrival": arrival,
            "variants": variants,
            "ways": ways,
            "steps": self._steps,
            "boards": [dict(board) for board in self._boards],
            "trays": list(self._trays),
        }
        text = json.dumps(found, ensure_ascii=False, separators=(",", ":"))
        for sign, written in _NO_SCRIPT:
            text = text.replace(sign, written)
        return Markup(text)  # noqa: S704  (nothing is left in it that ends the element)

    def _way(self, nodes: Sequence[Node]) -> Data:
        last = _end(nodes)
        return {
            "start": 0,
            "nodes": [self._node(node, nodes) for node in nodes],
            "stays": self._words.lying(last.screws, last.parts),
        }

    def _node(self, node: Node, nodes: Sequence[Node]) -> Data:
        return {
            "step": self._step(node),
            "in": node.within,
            "n": node.place,
            "of": node.of,
            "board": _number(self._boards, tuple(self._words.lines(node.board).items())),
            "tray": _number(self._trays, tuple(self._words.lying(node.screws, node.parts))),
            "moves": self._moves(node),
            "next": node.next,
            "fail": self._fail(node, node.fail, nodes) if node.fail else None,
        }

    def _step(self, node: Node) -> str:
        """Return the name of the step of *node*, of which all is kept that is the same wherever it is met."""
        procedure, name = self.whose(node), self.name(node)
        if name not in self._steps:
            step = self._site.step(procedure, node.step)
            self._steps[name] = {
                "label": self.label(procedure, node.step),
                "phase": LETTERS[node.kind],
                "danger": any(
                    one.step == node.step and one.signal == "danger"
                    for one, _ in self._site.outcome(procedure).callouts
                ),
                "timer": timer(step),
                "check": asked(self._site, step.check) if step.check else None,
                "record": [step.record] if step.record else [],
            }
        return name

    def label(self, procedure: Procedure, step: str) -> str:
        """Return the number of *step* on the sheet of *procedure*."""
        if procedure.id not in self._labels:
            self._labels[procedure.id] = {row.step.id: row.number for row in self._site.rows(procedure)}
        return self._labels[procedure.id].get(step, step)

    def whose(self, node: Node) -> Procedure:
        """Return the procedure whose step *node* is."""
        other = (
            None if node.procedure == self._procedure.id else self._site.base.target(self._procedure, node.procedure)
        )
        return other or self._procedure

    def name(self, node: Node) -> str:
        """Return the name of the step of *node* on this page: its id, with its procedure where that is another one."""
        return node.step if node.procedure == self._procedure.id else f"{node.procedure}/{node.step}"

    def _moves(self, node: Node) -> list[tuple[str, int]]:
        before, after = dict(node.board.screws), dict(node.screws)
        if before == after and node.board.parts == node.parts:
            return []
        names = dict.fromkeys([*before, *after])
        moved = [(self._words.screw(name), after.get(name, 0) - before.get(name, 0)) for name in names]
        moved += [(self._words.part(name), 1) for name in node.parts if name not in node.board.parts]
        moved += [(self._words.part(name), -1) for name in node.board.parts if name not in node.parts]
        return [(what, count) for what, count in moved if count]

    def _fail(self, node: Node, fail: Fail, nodes: Sequence[Node]) -> Data:
        match fail:
            case Again(to=to):
                label = self.label(self.whose(nodes[to]), nodes[to].step)
                return {"kind": "repeat", "to": to, "say": f"Repeat from {label}."}
            case Elsewhere(to=to, procedure=name):
                return {"kind": "go", "to": to, "say": f"Go on from here with: {self._title(node, name)}."}
            case Leave(procedure=name):
                target = self._site.base.target(self.whose(node), name)
                link = self._root + page_to_work_by(target) if target else ""
                return {"kind": "leave", "link": link, "say": f"Go to: {self._title(node, name)}."}
            case Halt(text=text):
                return {"kind": "stop", "say": text}

    def _title(self, node: Node, name: str) -> str:
        target = self._site.base.target(self.whose(node), name)
        return target.title.text if target else name


def timer(step: Step) -> Data | None:
    """Return the time that *step* keeps: a wait, or a window for each touch; None where it keeps none."""
    match step.action:
        case Wait(lasts=lasts) as wait:
            label = f"Wait until {wait.until}" if wait.until else "Wait"
            return _timed("wait", lasts, label)
        case Bath(lasts=lasts):
            return _timed("wait", lasts, "In the bath")
        case Heat(lasts=lasts, times=times, pause=pause):
            label = "Each touch" if times > 1 else "Heat"
            return {**_timed("dwell", lasts, label), "times": times, "apart": _finite(pause.low) if pause else None}
        case _:
            return None


def _timed(kind: str, lasts: Quantity, label: str) -> Data:
    low, high = max(0.0, lasts.low), _finite(lasts.high)
    return {"kind": kind, "low": low, "high": high, "times": 1, "apart": None, "label": label}


def asked(site: Site, check: Check) -> Data:
    """Return what *check* asks: a look that is answered, or a reading that is judged against its limits."""
    expect = check.expect
    if isinstance(expect, Quantity) and check.kind in {"measure", "battery", "leak"}:
        unit = spellings(expect.dimension).get(expect.unit) if expect.dimension else None
        if unit is not None:
            low, high = (_finite(unit.from_base(end)) for end in (expect.low, expect.high))
            return {
                "kind": "reading", "quantity": "leak" if check.kind == "leak" else check.what.text, "unit": unit.symbol,
                "low": low, "high": high, "strict": expect.strict, "limits": show.tidy(expect.text),
            }  # fmt: skip
    return {"kind": "look", "ask": looked(site, check)}


def looked(site: Site, check: Check) -> str:
    """Return the sentence that is answered with yes or no."""
    expected = check.expect if isinstance(check.expect, str) else check.expect.text if check.expect else ""
    match check.kind:
        case "look":
            return check.what.text
        case "gone":
            symptom = site.base.symptoms.get(check.what.text)
            return f"The complaint is gone: {symptom.title.text if symptom else check.what.text}."
        case "battery" if check.what.text == "shape" and not expected:
            return "The battery is flat, with no swelling."
        case _:
            return f"{check.what}: {show.tidy(expected)}" if expected else check.what.text


def _finite(value: float) -> float | None:
    return float(f"{value:.{_FIGURES}g}") if math.isfinite(value) else None


def _number(known: dict[H, int], one: H) -> int:
    """Return the number of *one* among those that are *known*, which grow by it where it is new."""
    return known.setdefault(one, len(known))


def _end(nodes: Sequence[Node]) -> Node:
    last = nodes[0]
    while last.next is not None:
        last = nodes[last.next]
    return last
