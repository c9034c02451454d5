"""How warm neighbours get: which count, by which way, summed how, and what a measurement or a shield does."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from benchleaf.dryrun.performed import performed
from benchleaf.dryrun.warmth import over_distance, warmed
from benchleaf.physics.plate import Plate
from benchleaf.physics.repeats import Touches
from benchleaf.physics.types import Kelvins, Metres, Seconds
from tests.make import DOCS, TOOLS, check
from tests.physics.oracles import Rings

if TYPE_CHECKING:
    from benchleaf.dryrun.state import State
    from benchleaf.dryrun.trace import Trace
    from benchleaf.dryrun.warmth import Warmed

DEVICE = """\
title: Stilt level
batteries: {{pack: {{part: battery, chemistry: li-ion, plug: lead}}}}
connectors: {{lead: {{title: Battery lead}}}}
board: {{part: main-board, thickness: 0.8 mm}}
parts:
  main-board: {{title: Main board, kind: board, near: {{}}}}
  battery: {{title: Battery, kind: battery, heat_limit: 60 °C}}
  chip: {{title: Chip, kind: package, part_of: main-board, heat_limit: 250 °C}}
  cover: {{title: Cover, kind: cover}}
  lens: {{title: Lens, kind: window, part_of: cover, heat_limit: 80 °C}}
  port: {{title: Port, kind: socket, part_of: main-board, near: {near}}}
"""
AIR = "hot-air: {title: Hot-air station, kind: hot-air, range: 100–480 °C, contact: 8 mm}\n"
IRON = "solder: {part: port, tool: iron, at: 350 °C, for: 3 s, times: 9, pause: 4 s}"
BLOW = "solder: {part: port, tool: hot-air, at: 380 °C, for: 60 s, reaches: 245 °C}"
MAT = "heat: {on: port, tool: heat-mat, at: 80 °C, for: 5 min}"
TOUCHING = "{battery: {via: touching}}"


def performed_steps(near: str, *steps: str) -> Trace:
    """Return the trace of *steps* on a device whose port is *near* others."""
    work = "".join(f"  - {{do: Do it., {step}}}\n" for step in steps)
    files = {
        f"{DOCS}/devices/stilt.yml": DEVICE.format(near=near),
        f"{DOCS}/repairs/stilt/example.yml": f"title: Example\npurpose: inspection\nsteps:\n{work}",
        f"{DOCS}/tools.yml": TOOLS + AIR,
    }
    return next(one for one in performed(check(files).base) if one.procedure.device == "stilt")


def neighbours(near: str, *steps: str) -> list[Warmed]:
    """Return the neighbours that *steps* warm."""
    return [one for _, one in warmed(performed_steps(near, *steps))]


def only(near: str, *steps: str) -> Warmed:
    """Return the neighbour of the last step; each step has one."""
    return neighbours(near, *steps)[-1]


def end(near: str, *steps: str) -> State:
    """Return the state after *steps*."""
    return performed_steps(near, *steps).end


# Finite volumes on a radial plate, row R1 of the house's table: nine touches of an iron, 15 mm from its middle, k 20.
@pytest.mark.outside
def test_along_the_board() -> None:
    """Along the board a neighbour reaches what a board cut into rings shows, within the ends."""
    touches = Touches(Kelvins(329.0), Metres(1e-3), Seconds(3.0), 9, Seconds(4.0))
    truth = 21 + Rings(Plate(20.0, 2.0e6, 10.0, Metres(0.8e-3)), 1e-3, 0.3).peak(touches, 15e-3, 90)

    found = only("{battery: 14 mm}", IRON)

    assert found.reached.low < truth < found.reached.high
    assert truth == pytest.approx(found.reached.central, rel=0.19)
    assert ("battery", "port", "board", 0.014, 60.0) == (
        found.part, found.heated, found.via, found.distance, found.limit,
    )  # fmt: skip


# The same rings, the nine touches given twice with two minutes between.
@pytest.mark.outside
def test_steps_are_summed() -> None:
    """Two steps are one list of touches: what the first one left is still there when the second begins."""
    plate = Plate(50.0, 2.0e6, 8.0, Metres(0.8e-3))
    once = Touches(Kelvins(329.0), Metres(1e-3), Seconds(3.0), 9, Seconds(4.0))
    times, rise = Rings(plate, 1e-3, 0.4).history(once, 31e-3, 300)
    shifted = 179.0
    twice = max(
        float(one + rise[min(range(len(times)), key=lambda at: abs(times[at] - (moment - shifted)))])
        for moment, one in zip(times[::20], rise[::20], strict=True)
        if moment > shifted
    )

    alone, both = only("{battery: 30 mm}", IRON), only("{battery: 30 mm}", IRON, "wait: {for: 2 min}", IRON)

    assert both.reached.high > alone.reached.high
    assert both.reached.high >= 21 + 0.99 * twice
    assert both.by_itself == alone.reached


def test_a_long_break_leaves_little() -> None:
    """After ten minutes hardly anything of an earlier step is left on the board."""
    alone, both = only("{battery: 30 mm}", IRON), only("{battery: 30 mm}", IRON, "wait: {for: 10 min}", IRON)

    assert 0 < both.reached.high - alone.reached.high < 0.2


def test_shortest_wait_counts() -> None:
    """Of a wait that is given from and to the shorter time counts."""
    short, long, said = (
        only("{battery: 30 mm}", IRON, f"wait: {{for: {wait}}}", IRON).reached.high
        for wait in ("1 min", "4 min", "1–4 min")
    )

    assert short == said
    assert short > long


@pytest.mark.parametrize("way", ["touching", "other-side"])
def test_by_contact(way: str) -> None:
    """What touches the joint, or is behind it, is judged by the source's own temperature."""
    found = only(f"{{battery: {{via: {way}}}}}", IRON)

    assert (350.0, 350.0) == (found.reached.central, found.reached.high)
    assert found.reached.low < 70


# The lumped layer's table: mat at 80 °C, room 21 °C, 300 s (2M: scipy's solution by steps).
@pytest.mark.outside
def test_pack_behind_a_mat() -> None:
    """A pack behind what lies on a mat warms as one layer does; anything else there is as hot as the mat."""
    pack, lens = (only(f"{{{part}: {{via: touching}}}}", MAT).reached for part in ("battery", "lens"))

    assert (34.3, 51.9, 72.7) == (round(pack.low, 1), round(pack.central, 1), round(pack.high, 1))
    assert (80.0, 80.0) == (lens.central, lens.high)


def test_oven() -> None:
    """Whatever is near is in the oven too, however far away it is."""
    found = only("{battery: 90 mm}", "heat: {on: port, tool: drying-oven, at: 55 °C, for: 2 h}")

    assert 55 == found.reached.high


# A pack at 38 mm, f 0.32, 60 s: 10.9 K on top of the board's rise (arithmetic from common practice).
@pytest.mark.outside
def test_air_of_the_nozzle() -> None:
    """Hot air warms what stands proud through the air too; a shield takes that away, and the board's share stays."""
    near = "{battery: 38 mm}"
    bare, shielded = only(near, BLOW).reached, only(near, BLOW.replace("}", ", shield: foil}")).reached

    assert 10.9 == pytest.approx(bare.high - shielded.high, abs=0.1)
    assert shielded.high > 40


def test_flat_parts_lie_below_the_stream() -> None:
    """A package lies flat on the board: the stream adds nothing to what the board brings."""
    bare, shielded = (only("{chip: 38 mm}", step) for step in (BLOW, BLOW.replace("}", ", shield: foil}")))

    assert bare.reached == shielded.reached


def test_only_air() -> None:
    """What is near by air alone is warmed by a stream, and not by an iron."""
    near = "{battery: {distance: 38 mm, via: air}}"

    assert 10.9 == pytest.approx(only(near, BLOW).reached.high - 21, abs=0.1)
    assert 21 == only(near, IRON).reached.high


def test_measured() -> None:
    """A neighbour that is kept below a temperature reaches that at the most, in that step alone."""
    held = MAT.replace("}", ", hold: {part: battery, below: 45 °C, with: thermocouple}}")
    found, later = neighbours(TOUCHING, held, IRON)

    assert (45.0, 45.0, 45.0) == (found.kept, found.reached.central, found.reached.high)
    assert later.reached.high == 350


def test_guarded_steps_bring_no_more_than_was_measured() -> None:
    """What a measurement guarded counts for what it was kept below, when a later step adds to it."""
    near = "{battery: 20 mm}"
    held = IRON.replace("}", ", hold: {part: battery, below: 30 °C, with: thermocouple}}")
    alone, bare = only(near, IRON).reached.high, only(near, IRON, IRON).reached.high

    guarded = only(near, held, IRON).reached.high

    assert alone < guarded < bare
    assert guarded == pytest.approx(alone + 9)


def test_the_rest_of_a_neighbour_comes_along() -> None:
    """What is part of a neighbour is as near as that; what the heated part is part of is no neighbour."""
    assert {"cover", "lens"} == {one.part for one in neighbours("{cover: 20 mm}", IRON)}
    assert [] == neighbours("{main-board: 1 mm}", IRON)


def test_only_what_is_there_counts() -> None:
    """What has left is no neighbour of what is in; what left with the same part is, and so is what is soldered in."""
    near = "{battery: 20 mm, chip: 10 mm}"

    assert ["battery", "chip"] == [one.part for one in neighbours(near, IRON)]
    assert ["chip"] == [one.part for one in neighbours(near, "remove: battery", IRON)]
    assert ["chip"] == [one.part for one in neighbours(near, "remove: main-board", IRON)]
    assert ["battery"] == [one.part for one in neighbours(near, "remove: chip", IRON)]
    assert ["battery", "chip"] == [one.part for one in neighbours(near, "remove: port", IRON)]


def test_what_is_new_knows_of_nothing() -> None:
    """A new pack was not there when the old one got warm."""
    near = "{battery: 20 mm}"
    new = only(near, IRON, "remove: battery", "replace: battery", IRON)

    assert new.reached == only(near, IRON).reached


def test_pack_that_got_too_hot() -> None:
    """A pack that the estimate takes above its limit is damaged; one that its bad end alone takes there is not."""
    assert {"pack": "too hot"} == dict(end("{battery: 10 mm}", IRON).damaged)
    assert {"pack": "too hot"} == dict(end(TOUCHING, MAT.replace("5 min", "20 min")).damaged)
    assert {} == dict(end("{battery: 28 mm}", IRON).damaged)
    assert only("{battery: 28 mm}", IRON).reached.high > 60


def test_bound_is_one() -> None:
    """The quick bound is never below the bad end, by whichever way heat comes."""
    near = ("{battery: 10 mm}", "{battery: 45 mm}", TOUCHING, "{battery: {distance: 15 mm, via: air}}")

    found = [only(place, *steps) for place in near for steps in ((IRON,), (BLOW,), (MAT,), (BLOW, IRON, MAT))]

    assert all(one.bound >= one.reached.high for one in found)
    assert all(one.stays_below(one.reached.high) for one in found)
    assert not any(one.stays_below(one.reached.high - 0.1) for one in found if one.reached.high > 21)


def test_over_distance() -> None:
    """The board is the cooler the farther away, and as hot at a chip's distance as the chip; a wait heats nothing."""
    trace = performed_steps("{chip: 20 mm}", "wait: {for: 1 min}", BLOW)
    wait, blow = (moment for moment in trace.straight if moment.step.action)

    curve = over_distance(trace, blow, (0.01, 0.02, 0.04))

    assert [0.01, 0.02, 0.04] == [distance for distance, _ in curve]
    assert curve[0][1] > curve[1][1] > curve[2][1] > 21
    assert next(one for _, one in warmed(trace)).reached.high == curve[1][1]
    assert () == over_distance(trace, wait, (0.01,))


def test_over_distance_counts_earlier_heat() -> None:
    """Heat that was given before beside the same neighbour counts with it, other heat does not."""
    elsewhere = "heat: {on: chip, tool: hot-air, at: 380 °C, for: 60 s, reaches: 200 °C}"
    alone, other, twice = (
        over_distance(trace, trace.straight[-1], (0.02,))[0][1]
        for trace in (
            performed_steps("{chip: 20 mm}", IRON),
            performed_steps("{chip: 20 mm}", elsewhere, IRON),
            performed_steps("{chip: 20 mm}", IRON, IRON),
        )
    )

    assert alone == other
    assert alone < twice
