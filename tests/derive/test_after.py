"""What a step changed, as the dry run found it: what the third column of the sheet is made of."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import pytest

from benchleaf.derive.after import after
from benchleaf.derive.news import Air, News, Now, Tray
from tests.dryrun.made import trace
from tests.make import WADER

if TYPE_CHECKING:
    from benchleaf.dryrun.trace import Trace

SOLDER = "- {do: Solder it., solder: {part: lamp-socket, tool: iron, at: 350 °C, for: 3 s}}"
BRUSH = "- {do: Brush it., takes: 1 min, solvent: {material: isopropanol, volume: 0.5 mL, on: lamp, area: 2 cm²}}"
FLUX = "- {do: Dab it., apply: {no-clean-flux: 0.1 mL}, work: {kind: wipe, on: lamp}}"
TWO_PACKS = WADER.replace("\nboard:", "\n  spare: {part: lamp, plug: lamp-plug, chemistry: nimh, cells: 1}\nboard:")


def news(made: Trace) -> dict[str, list[News]]:
    """Return what each step of one straight pass changed, by the step's id."""
    return {step: [one for one, _ in several] for step, several in after([made]).items()}


def work(*steps: str, wader: str = WADER) -> list[list[News]]:
    """Return what each of *steps* changed."""
    found = news(trace("\n".join(steps), wader=wader))
    return [found[f"steps-{number}"] for number in range(1, len(steps) + 1)]


def test_opening() -> None:
    """The opening switches off, fills the tray, takes the shell off, isolates the battery, and reaches its level."""
    found = news(trace("- {do: Look on.}"))

    assert [
        [Now("power off")],
        [Tray("case-screw", 4, 4, 4)],
        [Now("out", ("back-shell",), out=1)],
        [Now("isolated")],
        [Now("level", ("open",))],
    ] == [found[f"open-opening-{number}"] for number in range(1, 6)]


def test_closing() -> None:
    """The closing joins the battery, brings part and screws home, and ends closed."""
    found = news(trace("- {do: Look on.}"))

    assert [
        [Now("joined")],
        [Now("in", ("back-shell",), out=0)],
        [Tray("case-screw", 0, 4, 0), Now("level", ("closed",))],
    ] == [found[f"open-closing-{number}"] for number in range(1, 4)]


def test_levels_inside_one_another() -> None:
    """The way in reaches each level in turn, and the way out each one below."""
    found = news(trace("- {do: Look on.}", access="bare-board"))

    levels = [
        one.names for several in found.values() for one in several if isinstance(one, Now) and one.what == "level"
    ]
    assert [("open",), ("bare-board",), ("open",), ("closed",)] == levels


def test_what_did_not_change_is_no_news() -> None:
    """A device that is off already is not switched off again, and an open plug not opened again."""
    found = work("- {do: Shut it down., power: off}", "- {do: Unplug it., unplug: battery-plug}")

    assert [[], []] == found


def test_one_battery_of_several() -> None:
    """Where a device has two batteries, pulling one plug does not say that all is isolated."""
    found = work("- {do: Unplug it., unplug: lamp-plug}", wader=TWO_PACKS)

    assert [[Now("isolated", ("lamp",))]] == found


def test_battery_that_is_lifted_out() -> None:
    """A battery that is lifted out while it is joined is out, isolated, and takes the power with it."""
    [found, _] = work("- {do: Lift it out., remove: battery}", "- {do: Look on.}", wader=_without_unplugging())

    assert [Now("isolated"), Now("out", ("battery",), out=2)] == found


def _without_unplugging() -> str:
    return WADER.replace("      - {do: Unplug the battery., unplug: battery-plug}\n", "")


def test_parts_that_lie_out() -> None:
    """Parts are counted that lie beside the device; what was put away is in no count, and is not in either."""
    found = work(
        "- {do: Lift the lens., remove: lens}",
        "- {do: Lift the buzzer., remove: lamp}",
        "- {do: Put it away., store: {part: lens, as: do-not-use}}",
        "- {do: Put it away., store: {part: lamp, as: reuse}}",
        "- {do: Lay a new one in., replace: lens}",
    )

    assert [
        [Now("out", ("lens",), out=2)],
        [Now("out", ("lamp",), out=3)],
        [Now("set aside", ("lens",))],
        [Now("stored", ("lamp",))],
        [Now("new", ("lens",), out=1)],
    ] == found


def test_screws_of_two_kinds() -> None:
    """The tray says how many screws of the kind lie there that the step took, and how many lie there in all."""
    two = WADER.replace("access:\n", "  lid-screw: {title: Lid screw, count: 3, drive: T4}\naccess:\n")
    found = work("- {do: Take two out., unscrew: {lid-screw: 2}}", wader=two)

    assert [[Tray("lid-screw", 2, 3, 6)]] == found


def test_wet_and_dry() -> None:
    """A wet part says how long it stays so if it is left alone, and whether it burns; a wait that is long ends it."""
    made = trace(f"{BRUSH}\n- {{do: Wait., wait: {{for: 10 min, until: dry}}}}")
    found = news(made)
    needed = made.nature.drying(made.world, "lamp", made.straight[5].after.wet["lamp"])

    assert Now("wet", ("lamp",), needed, burns=True) == found["steps-1"][0]
    assert [Now("dry", ("lamp",))] == found["steps-2"]


def test_wait_that_is_too_short() -> None:
    """A wait that does not end a wet state says how long the rest takes."""
    [_, rest] = work(BRUSH, "- {do: Wait., wait: {for: 1 min}}")

    # 184 s in all, of which one minute has passed.
    [one] = rest
    assert isinstance(one, Now)
    assert one.what == "wet"
    assert one.seconds == pytest.approx(124, abs=2)


def test_seen_dry() -> None:
    """What someone sees dry is dry."""
    check = "- {do: Look at it., check: {look: It is dry., shows: dry, if_not: {stop: It is wet.}}}"

    assert [Now("dry", ("lamp",))] == work(BRUSH, check)[1]


def test_vapour_beside_its_limit() -> None:
    """A release is told as a share of the limit that it comes nearest to, at the bad end."""
    [[_, air]] = work(BRUSH.replace("0.5 mL", "3 mL"))

    # 3 mL of isopropanol in slow air: up to 1,199 ppm for seconds, where 25 % of 20,000 ppm may be; and up to 33 ppm in
    # 15 minutes, where 500 may be.
    assert isinstance(air, Air)
    assert air.share == pytest.approx(1199 / (0.25 * 20_000), rel=0.01)


def test_bath() -> None:
    """A bath wets what is part of the part as well; the part that the step names comes first."""
    [[wet]] = work("- {do: Bathe it., bath: {material: deionised-water, on: main-board, for: 3 min}}")

    assert isinstance(wet, Now)
    assert ("main-board", "lamp-socket") == wet.names


def test_hot_and_cool() -> None:
    """A hot part says how long it takes to cool; one that was put in new is neither hot nor cooled."""
    made = trace(f"{SOLDER}\n- {{do: Wait., wait: {{for: 9 min, until: cool}}}}")
    new = trace(f"{SOLDER}\n- {{do: Lay a new one in., replace: lamp-socket}}")
    hot = made.straight[5].after.hot["lamp-socket"]

    assert [Now("hot", ("lamp-socket",), hot.cool)] == news(made)["steps-1"]
    assert [Now("cool", ("lamp-socket",))] == news(made)["steps-2"]
    assert [Now("new", ("lamp-socket",), out=1)] == news(new)["steps-2"]


def test_desoldered() -> None:
    """A part that is desoldered is out and hot."""
    [found] = work("- {do: Lift it., desolder: {part: lamp-socket, tool: iron, at: 350 °C, for: 3 s}}")

    assert ["out", "hot"] == [one.what for one in found if isinstance(one, Now)]


def test_carrier_of_a_flux() -> None:
    """What burns and wets no part is told where it lies, and again when the last of it has gone."""
    found = work(FLUX, "- {do: Wait., wait: {for: 1 h, until: dry}}")

    [fuming] = [one for one in found[0] if isinstance(one, Now)]
    assert ("fuming", ("lamp",)) == (fuming.what, fuming.names)
    assert [Now("clear", ("lamp",))] == found[1]


def test_bonds() -> None:
    """A bond is free, sets as long as its adhesive says, and is firm."""
    found = work(
        "- {do: Free it., release: {bond: lens-bond, by: [heat]}}",
        "- {do: Glue it., bond: {bond: lens-bond, with: lens-adhesive}}",
        "- {do: Wait., wait: {for: 10 min}}",
        "- {do: Wait., wait: {for: 20 min, until: cured}}",
    )

    assert [
        [Now("free", ("lens-bond",))],
        [Now("setting", ("lens-bond",), 1800.0)],
        [Now("setting", ("lens-bond",), 1200.0)],
        [Now("holds", ("lens-bond",))],
    ] == found


def test_bond_without_an_adhesive_that_sets() -> None:
    """A bond that needs no time is renewed at once."""
    assert [[Now("renewed", ("lens-bond",))]] == work(
        "- {do: Press it on., bond: {bond: lens-bond, with: sac305-wire}}"
    )


def test_liquid_of_which_nobody_knows() -> None:
    """How long a liquid outside the library stays is infinite: nobody can say."""
    [[wet]] = work("- {do: Wet it., solvent: {material: lamp-oil, volume: 1 mL, on: lamp}}")

    assert isinstance(wet, Now)
    assert wet.seconds == math.inf


def test_evidence_and_feeds() -> None:
    """A feed from outside comes and goes, what is discharged and what was recorded are told."""
    charged = WADER.replace("heat_limit: 85 °C}", "heat_limit: 85 °C, stores: {capacitance: 1000 µF, voltage: 60 V}}")
    found = work(
        "- {do: Feed it., supply: {from: usb, at: 5 V, limit: 0.5 A, into: lamp-socket}, record: reading}",
        "- {do: Stop., supply: off}",
        "- {do: Bridge it., discharge: lamp, record: photo}",
        wader=charged,
    )

    assert [[Now("fed"), Now("reading")], [Now("not fed")], [Now("discharged", ("lamp",)), Now("photo")]] == found


def test_pack_that_gets_wet() -> None:
    """A battery that is bathed is not to be used again."""
    [found] = work("- {do: Bathe it., bath: {material: deionised-water, on: battery, for: 3 min}}")

    assert Now("hurt", ("battery",)) in found


def test_some_variants() -> None:
    """What a step changes for some variants alone names them; what it changes for all names none."""
    text = """\
- {do: Wet it., solvent: {material: isopropanol, volume: 1 mL, on: buzzer}, only: [w2]}
- {do: Wait., wait: {for: 15 h, until: dry}}
- {do: Lift the lens., remove: lens}
"""
    found = after([trace(text, variant=variant) for variant in ("w1", "w2")])

    assert ((Now("dry", ("buzzer",)), ("w2",)),) == found["steps-2"]
    assert ((Now("out", ("lens",), out=2), ()),) == found["steps-3"]
    assert [()] == [variants for one, variants in found["steps-1"] if isinstance(one, Now)]
