"""What each action does to the device: the effects of the format's table of actions, one by one."""

from __future__ import annotations

import pytest

from benchleaf.dryrun.state import DISCARDED, OUT, STORED
from tests import make
from tests.dryrun.made import after, trace

SOLDER = "{do: Solder the socket., solder: {part: lamp-socket, tool: iron, at: 350 °C, for: 3 s, times: 2, pause: 4 s}}"
BRUSH = "{do: Brush the socket., solvent: {material: isopropanol, volume: 0.5 mL, on: lamp-socket, area: 2 cm²}}"


def test_opening() -> None:
    """The opening switches off, takes screws and shell, and isolates the battery."""
    state = after("- {do: Look on., takes: 1 min}")

    assert not state.power
    assert state.tray == {"case-screw": 4}
    assert state.away == {"back-shell": OUT}
    assert state.isolated == {"pack"}
    assert state.battery_seen == {"shape"}


def test_closing_undoes_opening() -> None:
    """After the closing the device is as it came, but for being off."""
    end = trace("- {do: Look on., takes: 1 min}").end

    assert {} == end.tray
    assert {} == end.away
    assert not end.isolated
    assert not end.unplugged


def test_parent_is_opened_first() -> None:
    """Levels open parent first and close deepest first."""
    performed = trace("- {do: Look on., takes: 1 min}", access="bare-board").straight
    levels = [moment.level.id for moment in performed if moment.level]

    assert ["open"] * 5 + ["bare-board"] * 4 + ["open"] * 3 == levels


def test_what_is_part_of_a_part_leaves_with_it() -> None:
    """A part leaves with all that is part of it, and comes back so."""
    out = after("- {do: Look on., takes: 1 min}", access="bare-board")

    assert {"main-board", "lamp-socket"} <= set(out.away)


def test_what_left_by_itself_does_not_come_back_along() -> None:
    """A part that was taken off by itself stays on the bench when what it is part of goes back in."""
    out = "- {do: Lift the socket., remove: lamp-socket}\n- {do: Lift the board out., remove: main-board}"
    back = f"{out}\n- {{do: Lower the board in., fit: main-board}}"

    assert {"back-shell", "lamp-socket"} == set(after(back).away)
    assert {"back-shell"} == set(after(f"{back}\n- {{do: Press the socket on., fit: lamp-socket}}").away)


def test_bath_leaves_what_was_taken_off() -> None:
    """A bath wets a part with what is still on it, wherever the part is."""
    out = "- {do: Lift the socket., remove: lamp-socket}\n- {do: Lift the board out., remove: main-board}"
    wash = "- {do: Wash the board., bath: {material: deionised-water, on: main-board, for: 3 min}}"

    assert {"main-board"} == set(after(f"{out}\n{wash}").wet)


def test_last_battery_switches_off() -> None:
    """A device whose only battery is unplugged is off, however it was before."""
    state = after("""\
- {do: Plug the battery in., plug: battery-plug}
- {do: Switch the lamp on., power: on}
- {do: Unplug the battery., unplug: battery-plug}""")

    assert not state.power
    assert not state.live


def test_battery_that_is_lifted_out_switches_off() -> None:
    """A battery that is out feeds nothing, plugged or not."""
    here = trace("- {do: Lift the battery out., remove: battery}", access="closed")

    assert here.start.power
    assert not here.handover.power


def test_supply_keeps_it_live() -> None:
    """A feed from outside energises, until it is taken away."""
    fed = "- {do: Feed the lamp., supply: {from: bench-supply, at: 3.7 V, limit: 0.5 A, into: lamp-socket}}"

    assert after(fed).live
    assert not after(f"{fed}\n- {{do: Take the feed away., supply: off}}").live


@pytest.mark.parametrize(("use", "place"), [("reuse", STORED), ("do-not-use", DISCARDED)])
def test_stored_pack(use: str, place: str) -> None:
    """A pack that is put away is off the bench; one that is not to be used again is remembered as such."""
    state = after(f"""\
- {{do: Lift the battery out., remove: battery}}
- {{do: Put the battery away., store: {{part: battery, as: {use}}}}}""")

    assert place == state.away["battery"]
    assert ("pack" in state.damaged) is (place == DISCARDED)


def test_new_pack_is_sound() -> None:
    """A new part is dry, cool and not spent, and what was found on the old one is forgotten."""
    state = after("""\
- {do: Lift the battery out., remove: battery}
- {do: Put the battery away., store: {part: battery, as: do-not-use}}
- {do: Lay a new battery in., replace: battery}""")

    assert state.is_in("battery")
    assert {} == state.damaged
    assert not state.battery_seen
    assert state.isolated == {"pack"}


def test_solvent_wets_and_enters_the_room() -> None:
    """A solvent wets the part, and its whole volume enters the air at the start of its step."""
    state = after(f"- {BRUSH}")

    assert state.wet["lamp-socket"].liquid == "isopropanol"
    [gone] = state.releases

    assert "isopropanol" == gone.material
    assert pytest.approx(5e-7) == gone.volume


def test_too_short_a_wait_leaves_it_wet() -> None:
    """A wet state ends only when the computed time is at most the time passed."""
    blown = "- {{do: Blow it dry., use: [air-duster], wait: {{for: {}, until: dry, air_speed: 3 m/s}}}}"

    assert after(f"- {BRUSH}\n{blown.format('30 s')}").wet
    assert not after(f"- {BRUSH}\n{blown.format('60 s')}").wet


def test_waits_add_up() -> None:
    """Two waits dry as one of their sum."""
    blown = "- {do: Blow it dry., use: [air-duster], wait: {for: 30 s, air_speed: 3 m/s}}"

    assert not after(f"- {BRUSH}\n{blown}\n{blown}").wet


def test_seen_dry() -> None:
    """An observation ends a wet state."""
    state = after(
        f"- {BRUSH}\n- {{do: Look at the socket., check: {{look: It is dry., shows: dry, if_not: {{stop: Wet.}}}}}}"
    )

    assert {} == state.wet


def test_iron_leaves_it_hot() -> None:
    """A joint is hot after the iron, and cool after the computed time only."""
    hot = after(f"- {SOLDER}")
    wait = hot.hot["lamp-socket"].cool

    assert 350 == hot.hot["lamp-socket"].peak
    assert after(f"- {SOLDER}\n- {{do: Let it cool., wait: {{for: {wait - 1:.0f} s, until: cool}}}}").hot
    assert not after(f"- {SOLDER}\n- {{do: Let it cool., wait: {{for: {wait + 1:.0f} s, until: cool}}}}").hot


def test_desoldered_part_leaves() -> None:
    """A desoldered part is out and hot; soldered again it is in."""
    lift = "- {do: Lift the socket., desolder: {part: lamp-socket, tool: iron, at: 350 °C, for: 3 s}}"

    assert "lamp-socket" in after(lift).away
    assert after(f"{lift}\n- {SOLDER}").is_in("lamp-socket")


def test_bond_sets_in_its_time() -> None:
    """A renewed bond holds when its adhesive's time to handling has passed."""
    glued = """\
- {do: Pull the lens off., release: {bond: lens-bond, by: [pull]}}
- {do: Glue the lens., bond: {bond: lens-bond, with: lens-adhesive}}
"""

    assert after(glued).freed == {"lens-bond": "setting"}
    assert after(f"{glued}- {{do: Wait., wait: {{for: 29 min, until: cured}}}}").freed
    assert {} == after(f"{glued}- {{do: Wait., wait: {{for: 30 min, until: cured}}}}").freed


def test_flux_gives_off_its_carrier() -> None:
    """What a step puts on evaporates as well, by its share."""
    state = after("- {do: Flux the socket., apply: {no-clean-flux: 0.1 mL}}")

    [gone] = state.releases

    assert ("no-clean-flux", "isopropanol") == (gone.material, gone.substance)
    assert pytest.approx(0.9e-7) == gone.volume


def test_carrier_lies_on_the_board() -> None:
    """The carrier of a flux lies where the part is soldered to, until it has dried there."""
    state = after(f"- {SOLDER[:-1]}, apply: {{no-clean-flux: 0.1 mL}}}}")
    [(key, fume)] = state.fumes.items()

    assert ("main-board", "no-clean-flux") == key
    assert fume.carrier
    assert {} == state.wet


def test_what_burns_is_not_seen_dry() -> None:
    """An eye that sees a part dry does not see the trace that a closed case would hold; time ends it."""
    seen = f"- {BRUSH}\n- {{do: Look at it., takes: 0 s, check: {{look: It is dry., shows: dry}}}}"
    [fume] = after(seen).fumes.values()

    assert fume.seen
    assert {} == after(f"{seen}\n- {{do: Leave it., wait: {{for: 1 h}}}}").fumes


def test_new_part_carries_nothing() -> None:
    """A new part brings nothing along of what was put on the old one."""
    assert {} == after(f"- {BRUSH}\n- {{do: Fit a new socket., replace: lamp-socket}}").fumes


def test_clock_is_an_interval() -> None:
    """Each step lasts what it says, and between nothing and a minute where it says nothing."""
    here = trace("- {do: Wait., wait: {for: 2–3 min}}\n- {do: Look on.}").straight
    before, waited, looked = here[4].after, here[5].after, here[6].after

    assert (120, 180) == (waited.low - before.low, waited.high - before.high)
    assert (0, 60) == (looked.low - waited.low, looked.high - waited.high)


def test_name_that_means_nothing() -> None:
    """A name that does not exist is another stage's finding; the walk goes on."""
    assert after("- {do: Take it off., remove: nothing}\n- {do: Plug it., plug: no-plug}").isolated == {"pack"}


def test_part_on_a_board_that_is_out() -> None:
    """A part that is soldered or fitted to a board which is out is out with it, and comes back with it."""
    lifted = "- {do: Lift the board out., remove: main-board}\n- {do: Lift the socket off., remove: lamp-socket}"
    soldered, fitted = (f"{lifted}\n- {how}" for how in (SOLDER, "{do: Set it on., fit: lamp-socket}"))

    assert {"main-board", "lamp-socket"} <= after(soldered).away.keys() & after(fitted).away.keys()
    assert "lamp-socket" not in after(soldered).alone | after(fitted).alone
    assert {"back-shell"} == after(f"{soldered}\n- {{do: Lower it in., fit: main-board}}").away.keys()


SOLDERED = make.WADER.replace("plug: battery-plug, chemistry", "soldered: true, chemistry").replace(
    "      - {do: Unplug the battery., unplug: battery-plug}\n", ""
).replace("      - {do: Plug the battery in., plug: battery-plug}\n", "")  # fmt: skip
ON_BOARD = SOLDERED.replace("kind: battery, heat_limit", "kind: battery, part_of: main-board, heat_limit")
DESOLDER = "- {do: Lift the battery off., desolder: {part: battery, tool: iron, at: 350 °C, for: 3 s}}"
JOIN = "- {do: Solder the battery on., solder: {part: battery, tool: iron, at: 350 °C, for: 3 s}}"


def test_soldered_pack() -> None:
    """A soldered battery is isolated when it is desoldered, not joined by being laid in, and joined by its solder."""
    off = trace(DESOLDER, wader=SOLDERED).handover
    laid = trace(f"{DESOLDER}\n- {{do: Lay a new battery in., replace: battery}}", wader=SOLDERED).handover
    joined = trace(f"{DESOLDER}\n- {{do: Lay it in., replace: battery}}\n{JOIN}", wader=SOLDERED).handover

    assert [["pack"], ["pack"], []] == [sorted(state.isolated) for state in (off, laid, joined)]
    assert joined.is_in("battery")


def test_board_that_leaves_with_its_soldered_pack() -> None:
    """A battery that is soldered to a board goes on feeding it when the board is lifted out."""
    out = trace("- {do: Lift the main board out., remove: main-board}", wader=ON_BOARD).handover

    assert "battery" in out.away
    assert not out.isolated


def test_pack_with_contacts() -> None:
    """A battery that has neither plug nor solder is isolated by lifting it out, and joined by laying it in."""
    contacts = SOLDERED.replace("soldered: true, ", "")
    lift, lay = "- {do: Lift the battery out., remove: battery}", "- {do: Lay the battery in., fit: battery}"

    assert {"pack"} == trace(lift, wader=contacts).handover.isolated
    assert not trace(f"{lift}\n{lay}", wader=contacts).handover.isolated


def test_pack_that_is_stored_from_its_place() -> None:
    """A battery that goes straight from its place to its box feeds nothing any more."""
    put = "- {do: Plug it in., plug: battery-plug}\n- {do: Put it away., store: {part: battery, as: reuse}}"

    assert {"pack"} == after(put).isolated


def wipe(liquid: str, volume: str) -> str:
    """Return a step that wipes the socket."""
    return f"- {{do: Wipe it., solvent: {{material: {liquid}, volume: {volume}, on: lamp-socket}}, takes: 0 s}}\n"


def test_same_liquid_again() -> None:
    """A little of a liquid on what is still wet with it does not dry the rest."""
    [wet] = after(wipe("isopropanol", "2 mL") + wipe("isopropanol", "0.1 mL")).wet.values()

    assert pytest.approx(2.1e-6) == wet.volume


def test_little_on_a_flooded_part() -> None:
    """A part that came out of a bath and is wiped with the same liquid is as wet as out of the bath."""
    bath = "- {do: Bathe it., bath: {material: isopropanol, on: lamp-socket, for: 1 min}}\n"
    [wet] = after(bath + wipe("isopropanol", "0.1 mL")).wet.values()

    assert (None, 1.0) == (wet.volume, wet.left)


@pytest.mark.parametrize(
    ("first", "then", "stays"),
    [
        ("deionised-water", "isopropanol", "isopropanol"),
        ("isopropanol", "deionised-water", "deionised-water"),
        ("deionised-water", "n-heptane", "deionised-water"),
        ("n-heptane", "deionised-water", "deionised-water"),
        ("n-heptane", "d-limonene", "d-limonene"),
        ("d-limonene", "n-heptane", "d-limonene"),
    ],
)
def test_two_liquids(first: str, then: str, stays: str) -> None:
    """A liquid that mixes with the one that is there takes its place; where they do not mix, the slower one stays."""
    [wet] = after(wipe(first, "1 mL") + wipe(then, "0.1 mL")).wet.values()

    assert stays == wet.liquid


def test_part_that_is_pulled_off() -> None:
    """A part that is taken off while its bond holds leaves the bond open: what it did is not done again."""
    pulled = "- {do: Pull the lens off., remove: lens}\n- {do: Lay it in., fit: lens}\n"

    assert {"lens-bond": "torn"} == after(pulled).freed
    assert {"lens-bond": "setting"} == after(
        f"{pulled}- {{do: Glue it., bond: {{bond: lens-bond, with: lens-adhesive}}}}"
    ).freed
