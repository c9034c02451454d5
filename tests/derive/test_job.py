"""What procedures bring into a job of several, and why some do not share one."""

from __future__ import annotations

from dataclasses import replace

import pytest

from benchleaf.derive.job import Job, job
from benchleaf.derive.jobs import accepts, in_order
from benchleaf.dryrun.performed import performed
from tests import make
from tests.dryrun.made import trace

LOOK = "- {do: Look at the board.}"
NEW_LAMP = "- {do: Lay a new lamp in., replace: lamp}"
ALCOHOL = "{material: isopropanol, volume: 0.5 mL, on: lamp-socket}"
BRUSH = f"- {{do: Brush the socket., solvent: {ALCOHOL}, takes: 1 min}}"
DRY = "- {do: Blow it dry., use: [air-duster], wait: {for: 1 h, until: dry, air_speed: 3 m/s}}"
TIN = "- {do: Tin the pads., solder: {part: lamp-socket, tool: iron, at: 350 °C, for: 2–3 s, times: 9}}"
COOL = "- {do: Let it cool., wait: {for: 1 h, until: cool}}"
SWITCH_ON = "prove:\n  - {do: Switch the lamp on., power: on}\n"


def brought(steps: str, name: str = "example", *, access: str = "open", fields: str = "", variant: str = "w1") -> Job:
    """Return what a procedure with *steps* brings into a job."""
    return replace(job(trace(steps, access=access, fields=fields, variant=variant)), procedure=name)


def test_facts_of_one_procedure() -> None:
    """A procedure says for which variants it is, how far it opens, what it works on and what it renews."""
    found = brought(f"{BRUSH}\n{DRY}\n{NEW_LAMP}", access="bare-board")

    assert ("w1", "w2") == found.variants
    assert ("bare-board", ("open", "bare-board")) == (found.level, found.way)
    assert (("lamp-socket",), ("lamp",)) == (found.works_on, found.renews)
    assert ["isopropanol"] == [peak.substance for peak in found.vapour_peaks]
    assert () == found.leaves


def test_part_of_what_is_renewed() -> None:
    """A new board brings new parts, and heat without an iron reaches all that is part of what it is put on."""
    new = brought("- {do: Lay a new board in., replace: main-board}")
    warm = brought("- {do: Warm the board., heat: {on: main-board, tool: heat-mat, at: 60 °C, for: 1 min}}")

    assert ("main-board", "lamp-socket") == new.renews == warm.works_on


def test_flux_lies_on_the_board() -> None:
    """What a step puts on besides its action is material on what carries the joint."""
    assert ("main-board", "lamp-socket") == brought(f"{TIN[:-1]}, apply: {{no-clean-flux: 0.1 mL}}}}").works_on


@pytest.mark.parametrize(
    ("steps", "left"),
    [
        (LOOK, ()),
        (f"{BRUSH}\n{DRY}", ()),
        (f"{TIN}\n{COOL}", ()),
        (BRUSH, ("`lamp-socket` wet", "`isopropanol` on `lamp-socket` that can still burn")),
        (TIN, ("`lamp-socket` hot",)),
        ("- {do: Take the lamp out., remove: lamp}", ("`lamp` out",)),
        ("- {do: Unplug the lamp., unplug: lamp-plug}", ("`lamp-plug` unplugged",)),
        ("- {do: Plug the battery in., plug: battery-plug}", ("`battery-plug` plugged", "the pack `pack` joined")),
        ("- {do: Switch it on., power: on}", ("the device on",)),
        ("- {do: Free the lens., release: {bond: lens-bond, by: [pull]}}", ("the bond `lens-bond` open or not cured",)),
        ("- {do: Set the shell aside., store: {part: back-shell, as: reuse}}", ()),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_what_is_left(steps: str, left: tuple[str, ...]) -> None:
    """What the steps leave as they did not find it is said; what they leave better is not."""
    assert left == brought(steps).leaves


def test_what_the_proof_leaves() -> None:
    """A device that its proof leaves on meets the next proof so."""
    assert () == brought(LOOK, fields="").leaves_after_proof
    assert ("the device on",) == brought(LOOK, fields=SWITCH_ON).leaves_after_proof


def test_deepest_level_first() -> None:
    """Procedures are performed deepest level first, and else as they were named."""
    jobs = [brought(LOOK, "shut", access="closed"), brought(LOOK, "deep", access="bare-board"), brought(LOOK, "half")]

    assert ["deep", "half", "shut"] == [own.procedure for own in in_order(jobs)]


def test_share_a_job() -> None:
    """Procedures that leave the device as they found it share a job, and so does one for any device."""
    [anything] = [
        job(one)
        for one in performed(
            make.check({f"{make.DOCS}/repairs/any/look.yml": "title: Look\nsteps:\n  - {do: Look at it.}\n"}).base
        )
        if one.procedure.device == "any"
    ]

    assert () == accepts([brought(f"{BRUSH}\n{DRY}", "brush"), brought(NEW_LAMP, "lamp", access="bare-board")])
    assert () == accepts([brought(LOOK, "half"), anything])


OTHERS = brought(LOOK, "half")
VAPOURS = brought(f"{BRUSH}\n{DRY}", "one")
[PEAK] = VAPOURS.vapour_peaks


@pytest.mark.parametrize(
    ("jobs", "words"),
    [
        ([OTHERS, OTHERS], "is named twice"),
        ([OTHERS, brought(LOOK, "w2", fields="variants: [w2]\n", variant="w2")], "different variants"),
        (
            [
                brought(LOOK, "one", fields="variants: [w1]\n"),
                brought(LOOK, "two", fields="variants: [w2]\n", variant="w2"),
            ],
            "No variant fits",
        ),
        ([OTHERS, replace(OTHERS, procedure="side", way=("drawer",), level="drawer")], "a second opening"),
        ([OTHERS, brought(LOOK, "wet", fields="arrives: {liquid: water}\n")], "as wet"),
        ([OTHERS, brought(LOOK, "swollen", fields="arrives: {battery: swollen}\n")], "battery in the same state"),
        ([OTHERS, brought(LOOK, "off", fields="arrives: {power: off}\n")], "on or off alike"),
        ([brought("- {do: Work., work: {kind: wipe, on: lamp}}", "one"), brought(NEW_LAMP, "two")], "`two` renews"),
        ([OTHERS, brought(BRUSH, "brush")], "`lamp-socket` wet"),
        ([brought(LOOK, "on", fields=SWITCH_ON), OTHERS], "The proof of `on` leaves the device on"),
        ([VAPOURS, replace(VAPOURS, procedure="two", vapour_peaks=(replace(PEAK, mean=499.0),))], "15 minutes"),
        ([VAPOURS, replace(VAPOURS, procedure="two", vapour_peaks=(replace(PEAK, day=399.9),))], "8 hours"),
        ([VAPOURS, replace(VAPOURS, procedure="two", vapour_peaks=(replace(PEAK, peak=4950.0),))], "explosive limit"),
        (
            [brought(f"{TIN}\n{COOL}", "one"), brought(f"{TIN.replace('9', '99')}\n{COOL}", "two")],
            "Their heat together warms `battery`",
        ),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_reasons(jobs: list[Job], words: str) -> None:
    """Each thing that speaks against one job is said, and nothing else."""
    [reason] = accepts(jobs)

    assert words in reason
    assert () == accepts(jobs[:1]) == accepts(jobs[1:])
