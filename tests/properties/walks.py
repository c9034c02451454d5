"""Random devices, and a random legal way into each: what is taken out, one thing after the other, and its undo."""

from __future__ import annotations

from copy import deepcopy
from dataclasses import dataclass
from typing import Any

from hypothesis import strategies as st

Step = dict[str, Any]  # As it stands in a file.

PROCEDURE = "repairs/dotterel/look-inside.yml"
VARIANT = "d1"
_MOVES = frozenset({"unscrew", "screw", "unplug", "plug", "remove", "fit", "release", "bond"})
_SHOP = "name: Bench\nbench: {esd: {wrist_strap: true, mat: true}}\n"
_MATERIALS = "glue: {title: Glue, kind: adhesive, fixture: 30 min}\n"
_BACK = {"unscrew": "screw", "unplug": "plug", "remove": "fit"}
_OUT = {"unscrew": "Remove the screws.", "unplug": "Unplug it.", "remove": "Lift it out."}
_IN = {"screw": "Drive the screws.", "plug": "Plug it in.", "fit": "Set it down."}


def _out(action: str, thing: Any) -> Step:  # noqa: ANN401  (the value of an action)
    return {"do": _OUT[action], action: thing}


_OPENING: list[Step] = [
    {"do": "Shut it down.", "power": "off"},
    _out("unscrew", {"case-screw": 4}),
    _out("remove", "lid"),
    _out("unplug", "battery-plug"),
    {"do": "Look at the battery.", "check": {"battery": "shape", "if_not": {"stop": "It is swollen."}}},
]


@dataclass(frozen=True)
class Walk:
    """A device without levels, and the steps that open it, those that go on into it, and those that close it."""

    device: dict[str, Any]
    opening: list[Step]
    inwards: list[Step]
    closing: list[Step]


@st.composite
def walks(draw: st.DrawFn) -> Walk:
    """Return a random device with a random walk."""
    parts = draw(_parts())
    bonded = draw(st.lists(st.sampled_from([name for name in parts if _is_inner(name)]), unique=True, max_size=2))
    plugs = ["battery-plug", *(f"plug-{number}" for number in range(draw(st.integers(0, 3))))]
    screws = {f"screw-{number}": draw(st.integers(1, 9)) for number in range(draw(st.integers(0, 2)))}
    for_one = draw(st.lists(st.sampled_from([*plugs[1:], *screws, "none"]), unique=True, max_size=2))
    only = {name: {"only": [VARIANT]} for name in for_one}
    seal = {"title": "Seal", "kind": "seal", "single_use": True, "keeps_out": "IP67"}
    sealed = draw(st.booleans())
    device = {
        "title": "Dotterel",
        "variants": {VARIANT: {"title": "D1"}, "d2": {"title": "D2"}},
        "batteries": {"pack": {"part": "battery", "plug": "battery-plug", "chemistry": "li-ion"}},
        "parts": {**parts, **({"seal": seal} if sealed else {})},
        "bonds": {f"bond-{name}": {"title": "Bond", "part": name} for name in bonded},
        "connectors": {name: {"title": f"Plug {name}"} | only.get(name, {}) for name in plugs},
        "fasteners": {
            name: {"title": "Screw", "count": count, "torque": "hand", "because": "It is plastic."} | only.get(name, {})
            for name, count in {"case-screw": 4, **screws}.items()
        },
    }
    inwards = [step | only.get(_thing(step), {}) for step in draw(_inwards(parts, bonded, plugs, screws))]
    closing = _undone(_OPENING)
    # A seal that the lid has spent comes before the lid.
    closing[1:1] = [{"do": "Lay a new seal in.", "replace": "seal"}] if sealed else []
    return Walk(device, [*_OPENING], inwards, closing)


@st.composite
def _parts(draw: st.DrawFn) -> dict[str, Step]:
    """Return a lid, a battery, and some parts inside, of which some are part of others."""
    parts: dict[str, Step] = {
        "lid": {"title": "Lid", "kind": "shell"},
        "battery": {"title": "Battery", "kind": "battery"},
    }
    for number in range(draw(st.integers(1, 5))):
        part = {"title": f"Part {number}", "kind": draw(st.sampled_from(["board", "other", "sensor", "flex"]))}
        carrier = draw(st.sampled_from([*filter(_is_inner, parts), None, None]))
        parts[f"part-{number}"] = part | ({"part_of": carrier} if carrier else {})
    return parts


def _is_inner(name: str) -> bool:
    return name.startswith("part")


@st.composite
def _inwards(
    draw: st.DrawFn, parts: dict[str, Step], bonded: list[str], plugs: list[str], screws: dict[str, int]
) -> list[Step]:
    """Return steps that each take out something that is still in."""
    todo: list[tuple[str, Any]] = [("unplug", name) for name in plugs[1:]]
    for name, count in screws.items():
        first = draw(st.integers(1, count))
        todo += [("unscrew", {name: some}) for some in (first, count - first) if some]
    todo += [("remove", name) for name in parts if name != "lid"]
    chosen = [thing for thing in draw(st.permutations(todo)) if draw(st.booleans())] or todo[-1:]
    steps: list[Step] = []
    gone: set[str] = set()
    for action, thing in chosen:
        if action == "remove":
            if _carriers(parts, thing) & gone:
                continue
            loose = [name for name in bonded if thing in {name, *_carriers(parts, name)} and name not in gone]
            # What is glued comes free first; what is glued to a part that leaves with its carrier stays so.
            steps += [_freed(name) for name in loose if name == thing]
            gone.add(thing)
        steps.append(_out(action, thing))
    return steps


def _carriers(parts: dict[str, Step], name: str) -> set[str]:
    found = set()
    while "part_of" in parts[name]:
        name = parts[name]["part_of"]
        found.add(name)
    return found


def _freed(part: str) -> Step:
    return {"do": "Pull it free.", "release": {"bond": f"bond-{part}", "by": ["pull"]}}


def _undone(steps: list[Step]) -> list[Step]:
    """Return the undo of *steps*: the last is put back first."""
    found: list[Step] = []
    for step in reversed(steps):
        for action, back in _BACK.items():
            if action in step:
                only = {"only": step["only"]} if "only" in step else {}
                found.append({"do": _IN[back], back: step[action], **only})
        if "release" in step:
            found.append({"do": "Glue it.", "bond": {"bond": step["release"]["bond"], "with": "glue"}})
            found.append({"do": "Let the glue set.", "wait": {"for": "30 min", "until": "cured"}})
    return found


def _thing(step: Step) -> str:
    """Return what *step* moves, as far as some variants may not have it."""
    thing = step.get("unplug") or step.get("unscrew", "")
    return str(next(iter(thing)) if isinstance(thing, dict) else thing)


Files = dict[str, Any]


def as_level(walk: Walk) -> Files:
    """Return the files in which *walk* is the opening and closing of a level."""
    return as_levels(walk, 0)


def as_levels(walk: Walk, cut: int) -> Files:
    """Return the files in which *walk* is the opening and closing of two levels, the first *cut* steps in the outer."""
    if cut and "release" in walk.inwards[cut - 1]:
        # What is freed is taken off in the same level.
        cut -= 1
    first, second = walk.inwards[:cut], walk.inwards[cut:]
    outer = {"title": "Open", "opening": [*walk.opening, *first], "closing": [*_undone(first), *walk.closing]}
    inner = {"title": "Bare", "from": "open", "opening": second, "closing": _undone(second)}
    return _files(walk, {"open": outer, "bare": inner}, [{"do": "Look at it."}])


def as_work(walk: Walk) -> Files:
    """Return the files in which a level opens the device, and the rest of *walk* and its undo are steps."""
    level = {"title": "Open", "opening": [*walk.opening], "closing": [*walk.closing]}
    return _files(walk, {"open": level}, [*walk.inwards, *_undone(walk.inwards)])


def lists(files: Files) -> list[list[Step]]:
    """Return the lists of steps of *files*, but for the proof."""
    levels = files["devices/dotterel.yml"]["access"].values()
    return [steps for level in levels for steps in (level["opening"], level["closing"])] + [files[PROCEDURE]["steps"]]


def without(files: Files, number: int) -> Files:
    """Return *files* without the step of that *number* among those that move something."""
    found = deepcopy(files)
    own, at = moves(found)[number]
    del own[at]
    procedure = found[PROCEDURE]
    if "materials" in procedure and not any("bond" in step for step in procedure["steps"]):
        # That the list names it would be said as well.
        del procedure["materials"]
    return found


def moves(files: Files) -> list[tuple[list[Step], int]]:
    """Return where the steps of *files* stand that move something: but for the battery's plug, on which much hangs."""
    return [
        (steps, number)
        for steps in lists(files)
        for number, step in enumerate(steps)
        if _MOVES & step.keys() and "battery-plug" not in step.values()
    ]


def _files(walk: Walk, levels: dict[str, Any], steps: list[Step]) -> Files:
    proof: list[Step] = [
        {"do": "Switch it on.", "power": "on"},
        {"do": "Look at it."},
        {"do": "Shut it.", "power": "off"},
    ]
    procedure: Step = {
        "title": "Look inside", "access": [*levels][-1], "purpose": "inspection", "consent": ["seal-rating"],
        "steps": steps, "prove": proof,
    }  # fmt: skip
    # A level's materials need no list; those of steps do.
    if any("bond" in step for step in steps):
        procedure["materials"] = {"glue": "1 mL"}
    device = {**walk.device, "access": levels}
    return {"shop.yml": _SHOP, "materials.yml": _MATERIALS, "devices/dotterel.yml": device, PROCEDURE: procedure}
