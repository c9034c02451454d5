"""Procedures for one invented device, made of pieces of work: some are tidy, some forget a step."""

from __future__ import annotations

from functools import cache
from typing import Any

from hypothesis import strategies as st

from benchleaf import build
from tests.properties.invented import folder

Step = dict[str, Any]  # As it stands in a file.

SHOP = """\
name: Bench
room: {volume: %s, air_changes: %s, temperature: 21 °C, humidity: 50 %%}
bench: {air_speed: %s}
"""
TOOLS = """\
iron:    {title: Iron, kind: iron, range: 100–500 °C, contact: 2 mm}
hot-air: {title: Hot air, kind: hot-air, range: 50–500 °C, contact: 8 mm}
mat:     {title: Mat, kind: heat-mat, range: 30–150 °C}
oven:    {title: Oven, kind: oven, range: 30–80 °C, vented: true, rated_for_solvents: true}
tank:    {title: Tank, kind: tank, range: 20–60 °C}
duster:  {title: Duster, kind: air}
meter:   {title: Meter, kind: meter, measures: {voltage: 1 mV to 600 V, pressure: 1 Pa to 10 kPa, ratio: 1–100 %}}
"""
MATERIALS = """\
flux: {title: Flux, kind: flux, contains: {isopropanol: 90 %}}
wire: {title: Wire, kind: solder, alloy: sac305}
glue: {title: Glue, kind: adhesive, fixture: 30 min, full: 24 h}
"""
KNOT = """\
title: Knot
variants: {k1: {title: K1}, k2: {title: K2}}
batteries:
  pack: {part: battery, plug: battery-plug, chemistry: li-ion, cells: 1, voltage: 3.7 V, capacity: 1200 mAh}
board: {part: main-board, thickness: 1 mm, size: [60 mm, 90 mm], solder: sac305}
parts:
  shell:      {title: Shell, kind: shell, made_of: polycarbonate}
  seal:       {title: Seal, kind: seal, single_use: true, keeps_out: IP67}
  battery:    {title: Battery, kind: battery, heat_limit: 60 °C}
  main-board: {title: Main board, kind: board, heat_limit: 245 °C}
  port:       {title: Port, kind: socket, part_of: main-board, heat_limit: 260 °C, joint_limit: {at: 380 °C, for: 5 s},
               near: {battery: 45 mm, chip: 12 mm, window: 45 mm}}
  chip:       {title: Chip, kind: array-package, part_of: main-board, heat_limit: 245 °C, near: {battery: 30 mm}}
  cap:        {title: Capacitor, kind: other, part_of: main-board, heat_limit: 105 °C, near: {port: 25 mm},
               stores: {capacitance: 22 µF, voltage: 330 V}}
  window:     {title: Window, kind: window, made_of: glass, heat_limit: 90 °C, near: {display: {via: touching}}}
  display:    {title: Display, kind: display, heat_limit: 80 °C, no_bath: true}
  buzzer:     {title: Buzzer, kind: speaker, only: [k2], heat_limit: 70 °C}
bonds:
  window-bond: {title: Window bond, part: window, softens: 60–75 °C, single_use: true}
connectors:
  battery-plug: {title: Battery plug}
  display-plug: {title: Display plug}
  buzzer-plug:  {title: Buzzer plug, only: [k2]}
fasteners:
  case-screw:  {title: Case screw, count: 4, torque: hand, because: No thread is known.}
  board-screw: {title: Board screw, count: 3, torque: hand, because: No thread is known.}
access:
  open:
    title: Open
    volume: 60 cm³
    opening:
      - {do: Shut it down., power: off}
      - {do: Remove the screws., unscrew: {case-screw: 4}}
      - {do: Lift the shell away., remove: shell}
      - {do: Unplug the battery., unplug: battery-plug}
      - {do: Look at the battery., check: {battery: shape, if_not: {stop: Leave it.}}}
      - {do: Read the battery., check: {battery: charge, expect: ≤ 70 %, with: meter, if_not: {stop: Close it.}}}
      - {do: Empty the capacitor., discharge: cap}
      - {do: Read it., check: {measure: voltage, with: meter, expect: < 5 V, if_not: {stop: Cover it.}}}
    closing:
      - {do: Plug the battery in., plug: battery-plug}
      - {do: Lay a new seal in., replace: seal}
      - {do: Set the shell down., fit: shell}
      - {do: Drive the screws., screw: {case-screw: 4}}
  bare:
    title: Board out
    from: open
    opening:
      - {do: Unplug the display., unplug: display-plug}
      - {do: Unplug the buzzer., unplug: buzzer-plug, only: [k2]}
      - {do: Remove the screws., unscrew: {board-screw: 3}}
      - {do: Lift the board out., remove: main-board}
    closing:
      - {do: Lower the board in., fit: main-board}
      - {do: Drive the screws., screw: {board-screw: 3}}
      - {do: Plug the buzzer in., plug: buzzer-plug, only: [k2]}
      - {do: Plug the display in., plug: display-plug}
  side:
    title: Display out
    from: open
    opening:
      - {do: Unplug the display., unplug: display-plug}
      - {do: Lift the display out., remove: display}
    closing:
      - {do: Lay the display in., fit: display}
      - {do: Plug the display in., plug: display-plug}
"""
_CACHE = build.Cache()
_ON_BOARD, _LOOSE = ["port", "chip", "main-board", "cap"], ["shell", "window", "battery", "display"]
_LOOK = {"check": {"look": "It is as it should be.", "if_not": {"stop": "It is not."}}}


def checked(
    procedures: dict[str, Any], *, volume: str = "45 m³", air_changes: str = "3 /h", air_speed: str = "0.1 m/s",
    knot: str = KNOT,
) -> build.Checked:  # fmt: skip
    """Return the knowledge base with *procedures* by their names, in the room that is given, checked."""
    files = {f"repairs/knot/{name}.yml": value for name, value in procedures.items()}
    shop = SHOP % (volume, air_changes, air_speed)
    given = {"shop.yml": shop, "tools.yml": TOOLS, "materials.yml": MATERIALS, "devices/knot.yml": knot}
    return build.check(folder({**given, **files}), _CACHE)


@st.composite
def procedures(draw: st.DrawFn) -> dict[str, Any]:
    """Return a procedure of one to four pieces of work, and of up to two pieces of proof."""
    found: dict[str, Any] = {
        "title": "Work",
        "consent": ["seal-rating"],
        "access": draw(_of("open", "open", "bare", "side", "closed")),
    }
    if draw(_few(8)):
        found["arrives"] = draw(
            _of({"power": "unknown"}, {"power": "dead"}, {"power": "off"}, {"liquid": "water"}, {"battery": "swollen"})
        )
    if draw(_few(8)):
        found["variants"] = draw(_of(["k1"], ["k2"]))
    found["steps"] = [step for _ in range(draw(st.integers(1, 4))) for step in draw(_pieces(*_WORK))]
    found["prove"] = [step for _ in range(draw(st.integers(0, 2))) for step in draw(_pieces(*_PROOF))]
    forgotten = draw(st.integers(0, 4 * len(found["steps"])))
    if 0 < len(found["steps"]) - 1 and forgotten < len(found["steps"]):
        del found["steps"][forgotten]
    if draw(_few(20)):
        found["hands_back"] = {"without": [draw(_of("battery", "window"))], "because": "It is broken."}
    return found


@st.composite
def wiping(draw: st.DrawFn) -> dict[str, Any]:
    """Return a procedure that brings a solvent or two and leaves everything dry."""
    liquids = ("isopropanol", "acetone", "n-heptane", "ethyl-acetate")
    steps: list[Step] = []
    for _ in range(draw(st.integers(1, 2))):
        solvent = {"material": draw(_of(*liquids)), "volume": draw(_of("0.5 mL", "2 mL", "6 mL", "15 mL", "40 mL"))}
        steps.append({"do": "Wipe it.", "solvent": {**solvent, "on": "window", "area": "10 cm²"}})
        steps.append({"do": "Let it dry.", "wait": {"for": draw(_of("1 h", "3 h", "1 d")), "until": "dry"}})
    return {"title": "Work", "consent": ["seal-rating"], "access": "open", "steps": steps}


@st.composite
def heating(draw: st.DrawFn) -> dict[str, Any]:
    """Return a procedure that warms what lies beside its joints and leaves what it touched cool to the hand."""
    steps: list[Step] = []
    for _ in range(draw(st.integers(1, 2))):
        heat = {"part": draw(_of("port", "chip")), "tool": "iron", "at": draw(_of("320 °C", "350 °C")),
                "for": "2–3 s", "times": draw(_of(1, 1, 2, 8)), "pause": "10 s"}  # fmt: skip
        steps.append({"do": "Tin it.", "solder": heat})
        # Somebody feels that the part is cool: what lies farther away still warms.
        steps.append({"do": "Look at it.", "takes": "10 s", "check": {**_LOOK["check"], "shows": "cool"}})
    return {"title": "Work", "consent": ["seal-rating"], "access": draw(_of("open", "bare")), "steps": steps}


def _of(*values: Any) -> st.SearchStrategy[Any]:  # noqa: ANN401  (values of a file)
    return st.sampled_from(values)


@cache
def _few(one_in: int) -> st.SearchStrategy[bool]:
    return st.integers(1, one_in).map(lambda number: number == one_in)


_WAITS = ("20 s", "2–3 min", "15 min", "1 h", "1 h", "6 h", "1 d", "1 d")
_VOLUMES = ("0.05 mL", "0.2 mL", "0.5 mL", "1 mL", "3 mL", "10 mL", "40 mL")


@st.composite
def _wait(draw: st.DrawFn, until: str) -> Step:
    step: Step = {"do": "Let it rest.", "wait": {"for": draw(_of(*_WAITS)), "until": until}}
    if until == "dry" and draw(st.booleans()):
        step |= {"use": ["duster"]}
        step["wait"]["air_speed"] = draw(_of("0.5 m/s", "3 m/s"))
    if until == "dry" and draw(_few(4)):
        step["wait"] |= {"at": draw(_of("40 °C", "60 °C")), "with": "oven"}
    return step


@st.composite
def _wiped(draw: st.DrawFn) -> list[Step]:
    liquid = draw(_of("isopropanol", "isopropanol", "acetone", "n-heptane", "deionised-water", "d-limonene"))
    solvent = {"material": liquid, "volume": draw(_of(*_VOLUMES)), "on": draw(_of(*_ON_BOARD, *_LOOSE))}
    if draw(st.booleans()):
        solvent["area"] = draw(_of("1 cm²", "4 cm²", "10 cm²"))
    seen: list[Step] = [{"do": "Look at it.", "takes": "10 s", "check": {**_LOOK["check"], "shows": "dry"}}]
    return [
        {"do": "Wipe it.", "solvent": solvent, "takes": draw(_of("10 s", "1 min"))},
        draw(_wait("dry")),
        *(seen if draw(_few(4)) else []),
    ]


@st.composite
def _soldered(draw: st.DrawFn) -> list[Step]:
    heat = {
        "part": draw(_of("port", "port", "cap", "chip")), "tool": "iron", "at": draw(_of("330 °C", "350 °C", "400 °C")),
        "for": draw(_of("2–3 s", "5 s")), "times": draw(_of(1, 2, 6, 12)), "pause": draw(_of("2 s", "10 s", "1 min")),
    }  # fmt: skip
    step: Step = {"do": "Tin it.", "solder": heat}
    if draw(st.booleans()):
        step["apply"] = {"flux": draw(_of("0.05 mL", "0.3 mL", "1 mL")), "wire": "0.2 g"}
    return [step, draw(_wait("cool")), draw(_wait("dry")), {"do": "Look at it.", **_LOOK}]


@st.composite
def _blown(draw: st.DrawFn) -> list[Step]:
    part = draw(_of("port", "chip", "window", "battery"))
    heat = {"tool": draw(_of("hot-air", "hot-air", "mat")), "at": draw(_of("60 °C", "80 °C", "120 °C", "300 °C")),
            "for": draw(_of("10 s", "1 min", "5 min")), "on": part}  # fmt: skip
    if draw(st.booleans()):
        heat["reaches"] = draw(_of("50 °C", "70 °C", "230 °C"))
    return [{"do": "Warm it.", "heat": heat}, draw(_wait("cool"))]


@st.composite
def _reworked(draw: st.DrawFn) -> list[Step]:
    part = draw(_of("port", "chip"))
    heat = {"part": part, "tool": "hot-air", "at": draw(_of("300 °C", "380 °C")), "for": draw(_of("20 s", "50 s")),
            "reaches": draw(_of("225 °C", "235 °C"))}  # fmt: skip
    return [
        {"do": "Lift it off.", "desolder": heat},
        draw(_wait("cool")),
        *([{"do": "Take a new one.", "replace": part}] if draw(st.booleans()) else []),
        {"do": "Solder it.", "solder": heat},
        draw(_wait("cool")),
        {"do": "Look at it.", **_LOOK},
    ]


@st.composite
def _glued(draw: st.DrawFn) -> list[Step]:
    new = draw(_of("fit", "replace"))
    return [
        {"do": "Warm it.", "heat": {"tool": "mat", "at": draw(_of("65 °C", "75 °C")), "for": "2 min", "on": "window"}},
        {"do": "Free it.", "release": {"bond": "window-bond", "by": ["heat", "pry"]}},
        {"do": "Lift it out.", "remove": "window"},
        {"do": "Lay it in.", new: "window"},
        {"do": "Glue it.", "bond": {"bond": "window-bond", "with": "glue"}},
        draw(_wait("cured")),
    ]


@st.composite
def _bathed(draw: st.DrawFn) -> list[Step]:
    bath = {"material": draw(_of("deionised-water", "isopropanol")), "on": draw(_of("main-board", "shell", "window")),
            "for": draw(_of("1 min", "5 min"))}  # fmt: skip
    if draw(st.booleans()):
        bath["tool"] = "tank"
    return [{"do": "Bathe it.", "bath": bath}, draw(_wait("dry"))]


@st.composite
def _moved(draw: st.DrawFn) -> list[Step]:
    out, back, name = draw(
        _of(
            ("remove", "fit", "battery"), ("remove", "fit", "display"), ("remove", "fit", "main-board"),
            ("remove", "replace", "battery"), ("remove", "replace", "port"), ("unplug", "plug", "display-plug"),
            ("unplug", "plug", "battery-plug"), ("plug", "unplug", "battery-plug"),
            ("unscrew", "screw", {"board-screw": 2}), ("discharge", "work", "cap"),
        )
    )  # fmt: skip
    again = {"kind": "wipe", "on": name} if back == "work" else name
    between: list[Step] = draw(_of([], [], [{"do": "Wipe.", "work": {"kind": "wipe", "on": "port"}}]))
    return [{"do": "Take it.", out: name}, *between, {"do": "Bring it.", back: again}]


@st.composite
def _renewed(draw: st.DrawFn) -> list[Step]:
    return [{"do": "Take a new one.", "replace": draw(_of("seal", "battery", "port", "window", "display"))}]


@st.composite
def _looked(draw: st.DrawFn) -> list[Step]:
    check = draw(
        _of(
            {"battery": "shape"}, {"battery": "charge", "expect": "≤ 70 %", "with": "meter"}, {"look": "It is whole."},
            {"measure": "voltage", "with": "meter", "expect": "3–4 V"},
        )
    )  # fmt: skip
    step: Step = {"do": "Look at it.", "check": {**check, "if_not": {"stop": "It is not."}}}
    return [step | ({"record": "photo"} if draw(st.booleans()) else {})]


@st.composite
def _powered(draw: st.DrawFn) -> list[Step]:
    feed = {"from": "charger", "at": "5 V", "limit": "500 mA", "into": "port"}
    on, off = draw(_of(({"power": "on"}, {"power": "off"}), ({"supply": feed}, {"supply": "off"})))
    return [
        {"do": "Feed it.", **on},
        {"do": "Look at it.", **_LOOK},
        *([] if draw(_few(6)) else [{"do": "End.", **off}]),
    ]


_WORK = (_wiped, _wiped, _soldered, _soldered, _blown, _reworked, _glued, _bathed, _moved, _moved, _renewed, _looked,
         _powered)  # fmt: skip
_PROOF = (_powered, _powered, _looked, _wiped)


def _pieces(*kinds: Any) -> st.SearchStrategy[list[Step]]:  # noqa: ANN401  (functions that return strategies)
    return st.sampled_from(kinds).flatmap(lambda kind: kind())
