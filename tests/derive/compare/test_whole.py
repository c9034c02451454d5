"""What a change did to safety, seen in two whole knowledge bases."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from benchleaf import build
from benchleaf.derive.compare.change import Way
from tests.make import DOCS, SHOP, WADER, folder

if TYPE_CHECKING:
    from benchleaf.derive.compare.comparison import Comparison

SOCKET = f"{DOCS}/repairs/wader/re-tin-socket.yml"
DEVICE = f"{DOCS}/devices/wader.yml"
DRY = "  - do: Let the socket dry.\n    wait: {for: 20 min, until: dry}\n"
COOL = "  - do: Let the socket cool.\n    wait: {for: 10 min, until: cool}\n"
TIN = """\
  - id: tin
    do: Re-tin each pad.
    solder: {part: lamp-socket, tool: iron, at: 350 °C, for: 2–3 s, times: 4, pause: 4 s}
    apply: {sac305-wire: 0.3 g}
"""
BRUSH = """\
  - do: Brush the socket with isopropanol.
    use: [esd-brush]
    solvent: {material: isopropanol, volume: 0.5 mL, on: lamp-socket, area: 2 cm²}
"""
PROOF = """\
prove:
  - do: Measure the voltage at the test pads in the grip.
    check: {measure: voltage, with: multimeter, expect: 3.0–4.2 V, if_not: {stop: Charge the battery first.}}
"""
RE_TIN = f"""\
title: Re-tin the socket
access: bare-board
revision: 2
status: approved
reviewed: 2026-09-14
fixes: [no-light]
consent: [seal-rating]
tools: [iron, esd-brush, multimeter]
materials: {{isopropanol: 0.5 mL, sac305-wire: 0.3 g}}
steps:
{BRUSH}{DRY}{TIN}{COOL}  - do: Look at every joint.
    check: {{look: Each joint is wetted., if_not: {{stop: Send the board away.}}}}
{PROOF}"""


def compare(changes: dict[str, str | None], before: str = RE_TIN) -> Comparison:
    """Return what *changes* did to the small base with one procedure more."""
    return build.compare(folder({SOCKET: before}), folder({SOCKET: before, **changes}), "main")


def own(before: str, after: str) -> dict[str, str | None]:
    """Return the change of *before* into *after* in the procedure."""
    assert before in RE_TIN
    return {SOCKET: RE_TIN.replace(before, after, 1)}


def device(before: str, after: str) -> dict[str, str | None]:
    """Return the change of *before* into *after* in the device."""
    assert before in WADER
    return {DEVICE: WADER.replace(before, after, 1)}


def seen(comparison: Comparison) -> list[tuple[str, str]]:
    """Return way and kind of each change."""
    return [(str(change.way), change.kind) for change in comparison.changes]


@pytest.mark.parametrize(
    ("changes", "kind", "before", "after"),
    [
        (own("350 °C", "380 °C"), "heat", "350 °C", "380 °C"),
        (own("2–3 s", "2–5 s"), "heat", "2–3 s", "2–5 s"),
        (own("times: 4", "times: 9"), "heat", "4", "9"),
        (own("pause: 4 s", "pause: 1 s"), "wait", "4 s", "1 s"),
        (own("for: 20 min", "for: 5 min"), "wait", "20 min", "5 min"),
        (own(DRY, ""), "wait", "the wait of 20 min until dry", ""),
        (own("volume: 0.5 mL", "volume: 2 mL"), "liquid", "0.5 mL", "2 mL"),
        (own(PROOF, ""), "proof", "voltage 3.0–4.2 V", ""),
        (own("expect: 3.0–4.2 V", "expect: 2.5–4.2 V"), "proof", "3.0–4.2 V", "2.5–4.2 V"),
        (own("consent: [seal-rating]\n", ""), "consent", "seal-rating", ""),
        (own("  - id: tin\n", "  - id: tin\n    allow: [{rule: mixed-alloy, because: So.}]\n"), "exception", "",
         "mixed-alloy"),
        (device("joint_limit: {at: 360 °C", "joint_limit: {at: 380 °C"), "limit", "360 °C", "380 °C"),
        (device("near: {battery: 60 mm}", "near: {battery: 90 mm}"), "neighbour", "60 mm", "90 mm"),
        (device("torque: 12 cN·m", "torque: 14 cN·m"), "torque", "12 cN·m", "14 cN·m"),
    ],
)  # fmt: skip
def test_one_change_each_way(changes: dict[str, str | None], kind: str, before: str, after: str) -> None:
    """What makes safety looser is one change, with what was written then and now; taken back, it is stricter."""
    there, back = compare(changes), build.compare(folder({SOCKET: RE_TIN, **changes}), folder({SOCKET: RE_TIN}), "x")

    assert [("looser", kind)] == seen(there)
    assert [("stricter", kind)] == seen(back)
    assert [(before, after)] == [(change.before, change.after) for change in there.changes]
    assert "wader/re-tin-socket" in [one.name for one in there.unraised]
    assert () == back.unraised


@pytest.mark.parametrize(
    "changes",
    [
        own("id: tin", "id: re-tin"),
        own("Let the socket dry.", "Leave the socket to dry."),
        own("title:", "# A remark\ntitle:"),
        own("for: 20 min", "for: 1200 s"),
        device("title: Wader marsh lamp", "title: Wader lamp"),
    ],
)
def test_what_is_no_change(changes: dict[str, str | None]) -> None:
    """A renamed step, other words, a remark, another spelling of a number change nothing that safety hangs on."""
    assert () == compare(changes).changes


def test_raised_revision() -> None:
    """A looser step is said all the same where the revision was raised, and nothing is left to ask for."""
    found = compare({SOCKET: RE_TIN.replace("350 °C", "360 °C").replace("revision: 2", "revision: 3")})

    assert [("looser", "heat")] == seen(found)
    assert () == found.unraised


def test_moved_file() -> None:
    """A file that was moved is the same procedure, and what changed in it is found."""
    moved = {SOCKET: None, f"{DOCS}/repairs/wader/tin.yml": RE_TIN.replace("for: 10 min", "for: 5 min")}
    found = compare(moved)

    assert [("other", "moved"), ("looser", "wait")] == seen(found)
    assert [("wader/tin", "wader/re-tin-socket")] == [(one.name, one.was) for one in found.procedures]


def test_step_that_moved() -> None:
    """Drying that is done after the heat, no longer before it, is looser; two heedless steps exchanged are neither."""
    dry_later = compare({SOCKET: RE_TIN.replace(DRY, "").replace(COOL, COOL + DRY)})
    swap = "  - {do: Take up the board., use: [esd-brush]}\n", "  - {do: Turn the lamp to the light.}\n"
    both = RE_TIN.replace(BRUSH, "".join(swap) + BRUSH)
    swapped = compare({SOCKET: RE_TIN.replace(BRUSH, swap[1] + swap[0] + BRUSH)}, both)

    assert [("looser", "order")] == seen(dry_later)
    assert [("other", "order")] == seen(swapped)


def test_work_that_is_no_longer_done() -> None:
    """Heat that is gone takes its messages along, and nothing of that is looser."""
    found = compare(own(TIN, ""))

    assert {Way.STRICTER} == {change.way for change in found.changes}
    assert {"message", "step"} == {change.kind for change in found.changes}


def test_message_gained() -> None:
    """A step that heats is new: what it makes dangerous is said, and asks for a revision."""
    found = build.compare(folder({SOCKET: RE_TIN.replace(TIN, "")}), folder({SOCKET: RE_TIN}), "main")

    gained = [change.after for change in found.of(Way.LOOSER) if change.kind == "message"]
    assert "caution heat" in gained
    assert ["wader/re-tin-socket"] == [one.name for one in found.unraised]


def test_message_lost_though_the_work_stayed() -> None:
    """A neighbour that is said to lie so far off that nobody is warned any more loses its message too."""
    before = RE_TIN.replace("bare-board", "open").replace("2–3 s, times: 4, pause: 4 s", "4–5 s, times: 30, pause: 1 s")
    near, far = WADER.replace("battery: 60 mm", "battery: 6 mm"), WADER
    found = build.compare(folder({SOCKET: before, DEVICE: near}), folder({SOCKET: before, DEVICE: far}), "main")

    assert ("looser", "neighbour") in seen(found)
    assert [Way.LOOSER] == list({change.way for change in found.changes})
    assert any(change.kind == "message" and change.before and not change.after for change in found.changes)


def test_shared_opening() -> None:
    """A check that a level lost is said once, with all procedures that pass through the level."""
    look = WADER[WADER.index("      - do: Look at the shape") : WADER.index("    closing:")]

    found = compare(device(look, ""))

    assert [("looser", "check")] == seen(found)
    assert ("wader/re-tin-socket", "wader/replace-lamp") == found.changes[0].procedures
    assert 2 == len(found.unraised)


@pytest.mark.parametrize(
    ("changes", "why"),
    [
        ({SOCKET: RE_TIN.replace("steps:", "stepps:")}, "its file cannot be read"),
        ({DEVICE: WADER.replace("parts:", "partes:")}, "the device wader cannot be read"),
        ({DEVICE: None}, "the device wader is gone"),
        ({DEVICE: WADER.replace("  bare-board:", "  naked-board:")}, "wader has no level bare-board any more"),
        ({SOCKET: RE_TIN.replace("access:", "variants: [w9]\naccess:")}, "no variant is left"),
    ],
)
def test_what_can_no_longer_be_performed(changes: dict[str, str | None], why: str) -> None:
    """A procedure that can no longer be performed is said with the reason, and is no clean result."""
    found = compare(changes)

    said = [change for change in found.changes if "wader/re-tin-socket can no longer be performed" in change.message]
    assert 1 == len(said)
    assert why in said[0].message
    assert "wader/re-tin-socket" in [one.name for one in found.unraised]


def test_variants_and_time() -> None:
    """A procedure that lost a variant says so; one that takes longer says that, where nothing else does."""
    fewer = compare(own("access:", "variants: [w1]\naccess:"))
    longer = compare(own("  - do: Look at every joint.\n", "  - do: Look at every joint.\n    takes: 5 min\n"))

    assert [("other", "variants")] == seen(fewer)
    assert ["wader/re-tin-socket is for w1; it was for w1, w2"] == [change.message for change in fewer.changes]
    assert [("other", "time")] == seen(longer)


def test_shop_and_room() -> None:
    """Another room is a fact of the world; a milder limit is looser for all who work with what gives off vapour."""
    found = compare({f"{DOCS}/shop.yml": SHOP.replace("45 m³", "50 m³").replace("strictest", "osha-pel")})

    assert [("looser", "limit"), ("other", "shop")] == seen(found)
    assert ("wader/re-tin-socket",) == found.changes[0].procedures


def test_new_and_gone() -> None:
    """A procedure that is new, gone or withdrawn is named, and none of that is looser."""
    new = build.compare(folder({}), folder({SOCKET: RE_TIN}), "main")
    gone = build.compare(folder({SOCKET: RE_TIN}), folder({}), "main")
    withdrawn = compare(own("status: approved", "status: withdrawn"))

    assert [[("other", "procedure")], [("other", "procedure")], [("other", "status")]] == [
        seen(one) for one in (new, gone, withdrawn)
    ]
    assert (None, 2) == (new.procedures[0].was, new.procedures[0].revision)
    assert ("wader/re-tin-socket", None) == (gone.procedures[0].was, gone.procedures[0].revision)


def test_limit_that_bears_on_nothing() -> None:
    """A limit that no procedure is held to is said, and asks nobody for a revision."""
    found = compare(device("lens:        {title: Lens, kind: window, made_of: glass, heat_limit: 90 °C",
                           "lens:        {title: Lens, kind: window, made_of: glass, heat_limit: 99 °C"))  # fmt: skip

    assert [("looser", "limit")] == seen(found)
    assert () == found.changes[0].procedures
    assert () == found.unraised
