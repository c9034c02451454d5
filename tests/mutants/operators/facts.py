"""A fact of the device that is missing, or that makes a careful procedure a careless one."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from tests.mutants.fault import Mutant, Operator, Where
from tests.mutants.operators.dropping import EVERYWHERE
from tests.mutants.operators.numbers import HEAT, within
from tests.mutants.quantities import in_unit, times
from tests.mutants.sites import HEATS, Site, devices, sites
from tests.mutants.tree import Pointer, Tree, drop, put, value

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tests.mutants.book import Book

_FACT = Where.HERE | Where.PARTNER | EVERYWHERE
UNHEATED = "no procedure heats this part, nor what it lies beside, but for what is kept cool by measuring"
BY_PROFILE = "joints without a limit of their own are judged by the profile of their solder"
WICKED = "the old solder is wicked off before the new one comes: two never meet in one joint"


def _fact(path: str, tree: Tree, pointer: Pointer, new: object, *also: str, harmless: str = "") -> Mutant:
    """Return the mutant in which the value at *pointer* is *new*, or is left out where *new* is None."""
    old, name = value(tree, pointer), str(pointer[1])
    was = f" {old}" if isinstance(old, str) else ""
    return Mutant(
        path=path,
        at=pointer,
        says=name,
        what=f"{pointer[-1]}{was} left out" if new is None else f"{pointer[-1]}{was} -> {new}",
        change=partial(drop, pointer=pointer) if new is None else partial(put, pointer=pointer, new=new),
        here=(pointer[:2],),
        things=frozenset({name, *also}),
        harmless=harmless,
    )


def _heats(book: Book, path: str) -> Iterator[tuple[Site, Tree]]:
    """Yield the heating steps of the procedures of the device at *path*, each with its action."""
    for site in sites(book):
        if book.files[site.path].device == book.files[path].device and site.action in HEATS:
            yield site, site.step[site.action]


def _heated(book: Book, path: str, but: str = "") -> set[str]:
    """Return the parts that some procedure heats, left out what only a tool of the kind *but* heats."""
    tools = book.trees["procedures/tools.yml"]
    return {
        str(heat.get("part", heat.get("on"))) for _, heat in _heats(book, path) if tools[heat["tool"]]["kind"] != but
    }


def _held(book: Book, path: str) -> set[str]:
    """Return the parts that are kept cool by measuring."""
    return {str(heat["hold"]["part"]) for _, heat in _heats(book, path) if "hold" in heat}


def _wicks_first(book: Book, path: str) -> bool:
    """Whether each procedure that makes joints takes the old solder off them before."""
    wick = {name for name, each in book.trees["procedures/materials.yml"].items() if each.get("kind") == "wick"}
    made = [site for site, _ in _heats(book, path) if site.action == "solder"]
    return all(
        any(wick & set(step.get("apply", {})) for step in value(book.trees[site.path], site.steps)[: site.number])
        for site in made
    )


def _beside(tree: Tree, heated: set[str]) -> set[str]:
    """Return the parts that lie beside what is heated, as either of the two says."""
    found: set[str] = set()
    for name, part in tree["parts"].items():
        for other in part.get("near", {}):
            found |= {other} if name in heated else set()
            found |= {name} if other in heated else set()
    return found


def _no_limit(book: Book) -> Iterator[Mutant]:
    for path, tree in devices(book):
        heated, bodies = _heated(book, path), _heated(book, path, but="iron")
        met = bodies | (_beside(tree, heated) - _held(book, path))
        for name, part in tree["parts"].items():
            if "heat_limit" in part:
                harmless = "" if name in met else UNHEATED
                yield _fact(path, tree, ("parts", name, "heat_limit"), None, *heated, harmless=harmless)
            if "joint_limit" in part:
                yield _fact(path, tree, ("parts", name, "joint_limit"), None, *heated, harmless=BY_PROFILE)


def _no_near(book: Book) -> Iterator[Mutant]:
    for path, tree in devices(book):
        heated = _heated(book, path)
        for name, part in tree["parts"].items():
            if "near" in part:
                yield _fact(path, tree, ("parts", name, "near"), None, harmless="" if name in heated else UNHEATED)


def _distances(book: Book) -> Iterator[tuple[str, Tree, Pointer, str]]:
    for path, tree in devices(book):
        for name, part in tree["parts"].items():
            for other, near in part.get("near", {}).items():
                if isinstance(near, str):
                    yield path, tree, ("parts", name, "near", other), near


def _nearer(book: Book) -> Iterator[Mutant]:
    for path, tree, pointer, near in _distances(book):
        for new in (times(near, 0.5), "2 mm", {"via": "touching"}):
            if new != near:
                yield _fact(path, tree, pointer, new, str(pointer[-1]))


def _centimetres(book: Book) -> Iterator[Mutant]:
    """Yield each length of a device in centimetres: too far, too long, too thick."""
    for path, tree, pointer, near in _distances(book):
        yield _fact(path, tree, pointer, in_unit(near, "cm"), str(pointer[-1]))
    for path, tree in devices(book):
        for name, screw in tree.get("fasteners", {}).items():
            for key in ("length", "engagement"):
                yield _fact(path, tree, ("fasteners", name, key), in_unit(str(screw[key]), "cm"))
        yield _fact(path, tree, ("board", "thickness"), in_unit(str(tree["board"]["thickness"]), "cm"), *tree["parts"])


def _no_torque(book: Book) -> Iterator[Mutant]:
    for path, tree in devices(book):
        yield from (_fact(path, tree, ("fasteners", name, "torque"), None) for name in tree.get("fasteners", {}))


def _other_alloy(book: Book) -> Iterator[Mutant]:
    for path, tree in devices(book):
        heated = _heated(book, path)
        for alloy in ("sn63pb37", "sn42bi58"):
            harmless = WICKED if _wicks_first(book, path) else ""
            yield _fact(path, tree, ("board", "solder"), alloy, *heated, harmless=harmless)


def _smaller_case(book: Book) -> Iterator[Mutant]:
    for path, tree in devices(book):
        for level, access in tree["access"].items():
            if "volume" in access:
                new = times(str(access["volume"]), 0.01)
                yield _fact(path, tree, ("access", level, "volume"), new)


FACTS = (
    Operator(
        "no-heat-limit",
        "nobody knows what the part bears",
        dict.fromkeys(("unknown-heat-limit", "unknown-neighbours", "overheated-neighbour"), _FACT),
        _no_limit,
    ),
    Operator("no-neighbours", "nobody knows what lies beside the heat", {"unknown-neighbours": _FACT}, _no_near),
    Operator(
        "nearer-neighbour",
        "a careful procedure on a device that is packed tighter",
        {rule: where | _FACT for rule, where in HEAT.items()},
        _nearer,
        within,
    ),
    Operator(
        "centimetres",
        "what is near seems far, and a thin thing thick",
        dict.fromkeys(
            ("wrong-value", "over-torque", "overheated-neighbour", "unknown-neighbours", "unfinished-handover",
             "long-screw", "hot-handling"),
            _FACT,
        ),
        _centimetres,
    ),
    Operator("no-torque", "nobody knows how tight", {"missing-torque": Where.HERE}, _no_torque),
    Operator(
        "other-alloy", "two solders in one joint", {"mixed-alloy": _FACT, "unmelted-solder": _FACT}, _other_alloy
    ),
    Operator(
        "smaller-case",
        "the same trace of vapour in a smaller case",
        {"vapour-in-case": _FACT},
        _smaller_case,
        within,
    ),
)  # fmt: skip
