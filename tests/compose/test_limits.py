"""The second column: what a step sets and takes, what is borne, and how far the one stays from the other."""

from __future__ import annotations

import re

import pytest

from tests import make
from tests.compose.drawing import column, sheet


@pytest.mark.parametrize(
    ("step", "limit"),
    [
        (
            "heat: {tool: heat-mat, at: 65 °C, for: 5 min, on: lens, hold: {part: battery, below: 45 °C, with: iron}}",
            "65 °C, 5 min Lens bears 90 °C: 25 K below keep Battery below 45 °C, Soldering iron",
        ),
        (
            "solder: {part: lamp-socket, tool: iron, at: 350 °C, for: 2-3s, times: 2, pause: 4 s}",
            "350 °C, 2–3 s 2 times, 4 s apart joint bears 360 °C: 10 K below for 5 s a touch: 2 s below",
        ),
        ("desolder: {part: lamp-socket, tool: iron, at: 350 °C, for: 2 s}",
         "350 °C, 2 s joint bears 360 °C: 10 K below for 5 s a touch: 3 s below"),
        ("unscrew: {case-screw: 2}", "2 × T4 item A, M2 × 5"),
        ("screw: {case-screw: 2}", "12 cN·m 2 × T4, item A, M2 × 5 recommended at most 18 cN·m"),
        ("screw: {case-screw: {count: 2, torque: 0.11 N.m}}",
         "11 cN·m 2 × T4, item A, M2 × 5 written 0.11 N·m recommended at most 18 cN·m"),
        ("solvent: {material: isopropanol, volume: 500 µl, on: lamp, area: 2 cm2}", "500 µL Isopropanol on 2 cm²"),
        ("bath: {material: deionised-water, on: lamp, for: 3 min, at: 40 °C}", "3 min at 40 °C Deionised water"),
        ("wait: {for: 2 min, until: dry, at: 40 °C, with: heat-mat, air_speed: 3 m/s}",
         "2 min until dry at 40 °C Heat mat air at 3 m/s Battery bears 60 °C: 20 K below"),
        ("supply: {from: usb, at: 5 V, limit: 0.5 A, into: lamp-socket}",
         "5 V from usb into Lamp socket limited to 0.5 A"),
        ("release: {bond: lens-bond, by: [heat]}", "60–75 °C where the bond softens"),
        ("apply: {no-clean-flux: 0.1 ml}", "0.1 mL No-clean flux"),
    ],
    ids=lambda text: text.split(":")[0],
)  # fmt: skip
def test_limit(step: str, limit: str) -> None:
    """The second column says what a step sets, bears and takes, with its units written well."""
    page = sheet(f"  - {{do: Do it., {step}}}")

    assert [limit] == column(page, "steps-1", "lim")


SOCKET = "solder: {part: lamp-socket, tool: iron, at: 350 °C, for: 5 s, times: 9, pause: 1 s}"
NEARER = make.WADER.replace("near: {battery: 60 mm}", "near: {battery: 20 mm, lamp: 12 mm, main-board: 12 mm}")


def test_neighbour_at_its_bad_end() -> None:
    """A neighbour that comes far stands there at the bad end of the estimate, rounded up, with what it bears."""
    lines = column(sheet(f"  - {{do: Do it., {SOCKET}}}", device=NEARER), "steps-1", "lim")
    found = [re.fullmatch(r"(\w+) up to (\d+) °C estimate (\d+) °C; bears (\d+) °C: (\d+) K (below|above)", line)
             for line in lines[1:]]  # fmt: skip

    assert ["Battery", "Lamp"] == [line[1] for line in found if line]
    for line in found:
        assert line
        most, likely, bears, apart = (int(line[group]) for group in (2, 3, 4, 5))
        assert likely < most
        assert apart == abs(bears - most)
        assert (line[6] == "below") is (most <= bears)


def test_neighbour_that_stays_cool() -> None:
    """A neighbour that stays below 45 °C and far from its limit is not worth a line."""
    lines = column(sheet(f"  - {{do: Do it., {SOCKET.replace('times: 9', 'times: 1')}}}"), "steps-1", "lim")

    assert 1 == len(lines)


def test_neighbour_of_which_nobody_says_what_it_bears() -> None:
    """A neighbour with no limit of its own says so."""
    device = NEARER.replace("{title: Lamp, kind: other, heat_limit: 85 °C}", "{title: Lamp, kind: other}")
    lines = column(sheet(f"  - {{do: Do it., {SOCKET}}}", device=device), "steps-1", "lim")

    assert any(line.startswith("Lamp up to ") and line.endswith("; nobody says what it bears") for line in lines)


def test_too_hot_and_too_long() -> None:
    """What is above its limit says by how much, rounded up; in degrees of the shop's own kind."""
    hot = "  - {do: Do it., solder: {part: lamp-socket, tool: iron, at: 370.5 °C, for: 6.2 s}}"
    shop = make.SHOP.replace("temperature: °C", "temperature: °F")

    assert ["370.5 °C, 6.2 s joint bears 360 °C: 11 K above for 5 s a touch: 1.2 s above"] == column(
        sheet(hot), "steps-1", "lim"
    )[:1]
    assert "joint bears 680 °F (written 360 °C): 19 °F above" in column(sheet(hot, shop=shop), "steps-1", "lim")[0]


def test_limit_on_one_variant() -> None:
    """What holds on some of the variants that perform the step says on which."""
    device = NEARER.replace(
        "lamp:        {title: Lamp, kind: other, heat_limit: 85 °C}",
        "lamp:        {title: Lamp, kind: other, heat_limit: 85 °C, only: [w2]}",
    )
    lines = column(sheet(f"  - {{do: Do it., {SOCKET}}}", device=device), "steps-1", "lim")

    assert [True] == [line.endswith(" (Wader W2 only)") for line in lines if line.startswith("Lamp up to")]
    assert [False] == [line.endswith(" only)") for line in lines if line.startswith("Battery up to")]


def test_whole_device_in_warm_air() -> None:
    """Of all that lies in a cabinet, what bears least stands there."""
    text = "  - {do: Dry it., wait: {for: 2 h, at: 50 °C, with: drying-oven}}"

    assert ["2 h at 50 °C Drying cabinet Battery bears 60 °C: 10 K below"] == column(sheet(text), "steps-1", "lim")


def test_no_units_of_the_shop() -> None:
    """A shop that names no units sees what was written."""
    shop = "name: Little shop\n"
    page = sheet("  - {do: Drive them., screw: {case-screw: {count: 4, torque: 1.5 lbf.in}}}", shop=shop)

    assert ["1.5 lbf·in 4 × T4, item A, M2 × 5 recommended at most 1.59 lbf·in"] == column(page, "steps-1", "lim")
