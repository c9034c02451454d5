"""A number that is not the one meant: too hot, too cold, too long, too short, or two exchanged."""

from __future__ import annotations

from functools import partial
from itertools import combinations
from typing import TYPE_CHECKING

from benchleaf.model.action import Solvent
from benchleaf.model.step import Amount
from tests.mutants.fault import Expected, Mutant, Operator, Where
from tests.mutants.operators.dropping import EVERYWHERE, UNFINISHED
from tests.mutants.operators.edits import at_step, changed, has
from tests.mutants.quantities import in_unit, numbers_of, plus, times, unit_of
from tests.mutants.sites import HEATS, Site, sites
from tests.mutants.tree import Pointer, Tree, put, value

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from benchleaf.model.procedure import Procedure
    from benchleaf.model.step import Step
    from tests.mutants.book import Book
    from tests.mutants.case import Case

WITHIN = "still within every limit of the tool, the part, its joints, its neighbours and the air, and the times suffice"
_HERE = Where.HERE | EVERYWHERE
_KEYS = ("at", "for", "pause", "reaches", "volume", "area", "air_speed", "ramp")

HEAT: Expected = {
    **dict.fromkeys(
        (
            "overheated-part", "overheated-joint", "overheated-neighbour", "out-of-range-tool", "unmelted-solder",
            "harsh-profile", "unchecked-battery", "hot-handling", "contradicting-number", "reused-damaged-battery",
            "bath-damage", "autoignition", "battery-beside-heat", "forced-bond", "unfinished-handover",
        ),
        _HERE,
    ),
    "wrong-value": Where.HERE,
    "bad-quantity": Where.HERE,
}  # fmt: skip
AMOUNT: Expected = {
    **dict.fromkeys(UNFINISHED, _HERE),
    "vapour-over-limit": _HERE,
    "listing-mismatch": _HERE | Where.PARTNER,
    "contradicting-number": _HERE,
    "solvent-attack": _HERE,
    "wrong-value": Where.HERE,
    "bad-quantity": Where.HERE,
}
ANY: Expected = {**HEAT, **AMOUNT, "unmeasurable-value": _HERE, "never-powered-off": _HERE}


def within(case: Case) -> str:
    """Return why another number hurts nobody: it passes no limit, runs out of nothing, and what follows is no worse."""
    return "" if case.worse or case.passed or _runs_out(case) else WITHIN


def _runs_out(case: Case) -> bool:
    """Whether the steps now use more of a material than is listed."""
    here = case.mutant.at
    if not here or not (here[-1] == "volume" or "apply" in here) or not case.performed:
        return False
    procedure = case.changed.concerned[0]
    return any(
        sum(each.amount.high for each in _used(procedure) if each.material.text == listed.material.text)
        > listed.amount.high * 1.000001
        for listed in procedure.materials
    )


def _used(procedure: Procedure) -> Iterator[Amount]:
    for step in (*procedure.steps, *procedure.prove):
        yield from _by(step)


def _by(step: Step) -> Iterator[Amount]:
    yield from step.apply
    if isinstance(step.action, Solvent):
        yield Amount(step.action.material, step.action.volume)


def fields(site: Site, *wanted: str) -> Iterator[Pointer]:
    """Yield the way to each quantity of the action of *site*, from its step; with *wanted*, of these names alone."""
    for name in (*HEATS, "bath", "wait", "solvent"):
        for pointer in (*((name, key) for key in _KEYS), (name, "hold", "below")):
            if has(site.step, pointer) and (not wanted or pointer[-1] in wanted):
                yield pointer
    if not wanted or "apply" in wanted:
        yield from (("apply", material) for material in site.step.get("apply", {}))


def each(*wanted: str, change: Callable[[str], str]) -> Callable[[Book], Iterator[Mutant]]:
    """Return what yields each quantity of the names *wanted*, changed."""

    def make(book: Book) -> Iterator[Mutant]:
        for site in sites(book):
            for field in fields(site, *wanted):
                old = str(value(site.step, field))
                if change(old) != old:
                    yield changed(site, field, change(old))

    return make


def _hotter(book: Book) -> Iterator[Mutant]:
    for more in (30, 60, 100):
        yield from each("at", "reaches", "below", change=partial(plus, more=more))(book)


def _colder(book: Book) -> Iterator[Mutant]:
    for less in (-30, -100):
        yield from each("at", "reaches", change=partial(plus, more=less))(book)


def _longer(book: Book) -> Iterator[Mutant]:
    for factor in (3, 10):
        for site in sites(book):
            for heat in HEATS:
                if has(site.step, (heat, "for")):
                    yield changed(site, (heat, "for"), times(str(site.step[heat]["for"]), factor))
                if has(site.step, (heat, "times")):
                    yield changed(site, (heat, "times"), site.step[heat]["times"] * factor)


def _no_pause(book: Book) -> Iterator[Mutant]:
    return each("pause", change=lambda old: f"0 {unit_of(old)}")(book)


def _shorter(book: Book) -> Iterator[Mutant]:
    for factor in (0.5, 0.1):
        for site in sites(book):
            if has(site.step, ("wait", "for")):
                yield changed(site, ("wait", "for"), times(str(site.step["wait"]["for"]), factor))


SLIPS = {
    "s": ("min",), "min": ("s", "h"), "h": ("min",), "mL": ("L",), "L": ("mL",), "°C": ("°F",), "g": ("kg",),
    "cm²": ("mm²",), "m/s": ("cm/s",),
}  # fmt: skip


def _units(book: Book) -> Iterator[Mutant]:
    for site in sites(book):
        for field in fields(site):
            old = str(value(site.step, field))
            yield from (changed(site, field, in_unit(old, unit)) for unit in SLIPS.get(unit_of(old), ()))


def _swapped(book: Book) -> Iterator[Mutant]:
    """Yield each step with the numbers of two of its quantities exchanged, their units as they were."""
    for site in sites(book):
        counts = [(heat, "times") for heat in HEATS if has(site.step, (heat, "times"))]
        for one, other in combinations([*fields(site, "at", "for", "pause", "reaches", "volume", "area"), *counts], 2):
            if one[0] == other[0]:
                first, second = value(site.step, one), value(site.step, other)
                change = partial(_exchange, one=(*site.pointer, *one), other=(*site.pointer, *other))
                yield at_step(site, (), f"{one[-1]} {first} and {other[-1]} {second} exchanged", change)


def _exchange(tree: Tree, one: Pointer, other: Pointer) -> None:
    first, second = value(tree, one), value(tree, other)
    for pointer, old, new in ((one, first, second), (other, second, first)):
        number = numbers_of(str(new))
        put(tree, pointer, f"{number} {unit_of(old)}" if isinstance(old, str) else round(float(number.split("–")[-1])))


NUMBERS = (
    Operator("raise-temperature", "a part, a joint or a neighbour gets hotter than it bears", HEAT, _hotter, within),
    Operator("lower-temperature", "solder or a bond is forced that is not soft", ANY, _colder, within),
    Operator("longer-heat", "the heat stays or comes again until a neighbour is too warm", HEAT, _longer, within),
    Operator("no-pause", "the heat has no time to spread", HEAT, _no_pause, within),
    Operator("shorten-wait", "the next hand meets what is wet, hot or not cured", AMOUNT, _shorter, within),
    Operator("other-unit", "a thousandfold, or °F for °C", ANY, _units, within),
    Operator("swap-numbers", "the number of one quantity stands at another", ANY, _swapped, within),
)
