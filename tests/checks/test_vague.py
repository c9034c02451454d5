"""Which vague words are cured by which field, and which stay vague."""

from __future__ import annotations

import pytest

from tests.make import DOCS, EXAMPLE, WADER, check

IRON = "solder: {part: lamp-socket, tool: iron, at: 350 °C, for: 2–3 s}"
NINE = "solder: {part: lamp-socket, tool: iron, at: 350 °C, for: 2–3 s, times: 9, pause: 4 s}"
WIPE = "solvent: {material: isopropanol, volume: 0.5 mL, on: lamp}"
SLOW = WIPE + "\n    takes: 1–2 min"
FLUX = "apply: {no-clean-flux: 0.1 mL}"
WIRE = "apply: {sac305-wire: 0.1 g}"
WAIT = "wait: {for: 2 h}"
OVEN = "wait: {for: 2 h, at: 45 °C, with: drying-oven}"
SCREW = "screw: {case-screw: 4}"
NO_TORQUE = WADER.replace("engagement: 4 mm,\n     torque: 12 cN·m}", "engagement: 4 mm}")
BY_HAND = WADER.replace("torque: 12 cN·m}", "torque: hand, because: No driver reaches it.}")


def found(do: str, fields: str, device: str = WADER) -> list[str]:
    """Return the advice of this rule for a step."""
    text = f'title: Example\naccess: open\nsteps:\n  - do: "{do}"\n    {fields}\n'
    checked = check({EXAMPLE: text, f"{DOCS}/devices/wader.yml": device})
    assert ("wader", "example") in checked.base.procedures  # else nothing was judged
    return [one.help for one in checked.findings if one.rule == "vague-amount" and one.place.path == EXAMPLE]


@pytest.mark.parametrize(
    ("do", "fields", "advice"),
    [
        ("Wet the lamp for a while.", WIPE, "takes: 30–60 s"),
        ("Wet the lamp briefly.", WIPE, "takes: 30–60 s"),
        ("Lay flux on the pads and wait a few seconds.", FLUX, "takes: 30–60 s"),
        ("Let it dry in a warm place.", WAIT, "wait: {for: 2 h, at: 40 °C}"),
        ("Solder the pins with some flux.", IRON, "apply: {no-clean-flux: 0.1 mL}"),
        ("Solder the pins with enough fresh solder.", f"{IRON}\n    {FLUX}", "apply: {solder: 0.1 mL}"),
        ("Solder the pins with a dab of flux.", f"{IRON}\n    {WIRE}", "apply: {no-clean-flux: 0.1 mL}"),
        ("Touch each pin a few times.", IRON, "times: 3"),
    ],
)
def test_vague(do: str, fields: str, advice: str) -> None:
    """A vague word in a step that lacks its number is found, and the advice says which field to write."""
    (said,) = found(do, fields)

    assert advice in said


@pytest.mark.parametrize(
    ("do", "fields"),
    [
        ("Wet the lamp for a while.", SLOW),
        ("Wet the lamp for a while, 30 s or so.", WIPE),
        ("Wet the lamp with some isopropanol.", WIPE),
        ("Wet the lamp with a little alcohol.", WIPE),
        ("Wet the lamp well.", WIPE),
        ("Wait a while.", WAIT),
        ("Let it dry in a warm place.", OVEN),
        ("Let it dry in a warm place at 40 °C.", WAIT),
        ("Let the hot lamp cool.", WAIT),
        ("Solder the pins with some flux.", f"{IRON}\n    {FLUX}"),
        ("Solder the pins with some solder.", f"{IRON}\n    {WIRE}"),
        ("Solder the pins with some flux, 0.1 mL.", IRON),
        ("Solder the pins briefly.", IRON),
        ("Heat the pins well with hot air.", IRON),
        ("Touch each pin several times.", NINE),
        ("Leave some room around the lamp.", WAIT),
        ("Wipe along the side of the battery well.", WIPE),
        ("Drive the screws tight.", SCREW),
        ("Press the lens firmly.", FLUX),
        ("Drive the screws well.", SCREW),
        ("Press the lens down for a while.", "work: {kind: align, on: lens}"),
    ],
)
def test_not_vague(do: str, fields: str) -> None:
    """A word whose number stands in the step's own field or in the text, or that no field is for, is not vague."""
    assert [] == found(do, fields)


@pytest.mark.parametrize("word", ["tight", "firmly", "well", "finger-tight"])
def test_torque(word: str) -> None:
    """A screw that is to be driven tight and has no torque is told the torque that it bears."""
    (said,) = found(f"Drive the screws {word}.", SCREW, NO_TORQUE)

    assert "Write the torque of `case-screw` on the device: `torque: 18 cN·m` at most" in said
    assert [] == found(f"Drive the screws {word}.", SCREW, NO_TORQUE.replace("4 mm}", "4 mm, torque: 18 cN·m}"))
    assert [] == found(f"Drive the screws {word}.", SCREW, BY_HAND)


def test_torque_that_is_named_is_borne() -> None:
    """The torque that the advice names is not too much for the screw."""
    device = NO_TORQUE.replace("4 mm}", "4 mm, torque: 18 cN·m}")

    assert [] == [one.rule for one in check({f"{DOCS}/devices/wader.yml": device}).findings]
