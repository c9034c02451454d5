"""What the sheet of one procedure says, and what the lists make of it."""

from __future__ import annotations

import re
from posixpath import dirname, join, normpath

import pytest

from benchleaf.pages.compose.rules import rule_pages
from benchleaf.pages.compose.site import Options
from tests import make
from tests.compose.drawing import EXAMPLE, SHOP, WADER, column, drawn, need, sheet


@pytest.mark.parametrize(
    ("check", "shown"),
    [
        ("{look: It is whole., if_not: {stop: It is not.}}", "It is whole. If not: stop. It is not."),
        (
            "{measure: voltage, expect: '> 1 V', when: {charge: 20%}, if_not: {repeat: look, times: 3}}",
            "> 1 V voltage means something only with charge 20 % If not: repeat from W1 , 3 times at most, then stop",
        ),
        ("{gone: no-light, if_not: {go_to: replace-lamp}}",
         "The complaint is gone Gives no light If not: Replace the lamp"),
        ("{battery: shape, if_not: {stop: No.}}", "flat, no swelling battery shape If not: stop. No."),
        ("{leak: < 1 kPa, with: multimeter, if_not: {repeat: look, then: {go_to: replace-lamp}}}",
         "< 1 kPa leak Multimeter If not: repeat from W1 , then Replace the lamp"),
        ("{look: It is dry., shows: dry, if_not: {stop: No.}}", "It is dry. shows that it is dry If not: stop. No."),
    ],
    ids=lambda text: text.split(":")[0],
)  # fmt: skip
def test_check(check: str, shown: str) -> None:
    """A check stands with what is wanted, how it is read, and the way on where it fails."""
    page = sheet(f"  - {{id: look, do: Look on.}}\n  - {{do: Check it., check: {check}}}")

    assert [shown] == column(page, "steps-2", "lim")


def test_tool_that_acts() -> None:
    """The tool that an action names stands with the instruction, once, also where `use` leaves it out."""
    page = sheet("""\
  - {do: Solder it., solder: {part: lamp-socket, tool: iron, at: 350 °C, for: 2 s}}
  - {do: Solder it., use: [microscope, iron], solder: {part: lamp-socket, tool: iron, at: 350 °C, for: 2 s}}""")

    assert "Soldering iron" == page.select('[data-step="steps-1"] td.do small a')[0].get_text()
    assert ["Stereo microscope", "Soldering iron"] == [
        link.get_text() for link in page.select('[data-step="steps-2"] td.do small a')
    ]


def test_conditions_keep_their_units() -> None:
    """What must hold for a reading keeps its capitals: °C is not °c."""
    page = sheet(
        "  - {do: Measure it., check: {measure: voltage, with: multimeter, expect: 3 V, when: {temperature: 20 °C},"
        " if_not: {stop: No.}}}"
    )

    assert ["Wrist strap on", "Mat earthed", "Temperature 20 °C"] == need(page, "Conditions")


def test_equipment_with_its_settings() -> None:
    """Equipment stands with drive, torque and set point, in the shop's unit with the written value beside it."""
    shop = make.SHOP.replace("units: {torque: cN·m, temperature: °C}", "units: {torque: N·m, temperature: °F}")
    page = sheet(
        "  - {do: Solder it., solder: {part: lamp-socket, tool: iron, at: 350 °C, for: 2 s}}",
        "access: open\ntools: [iron]",
        shop=shop,
    )

    assert [
        "Small torque driver T4, 0.12 N·m (written 12 cN·m)",
        "Soldering iron 662 °F (written 350 °C)",
    ] == need(page, "Equipment")


def test_count_of_what_comes_back() -> None:
    """The close requirements count what the steps bring back, for some variants alone where they differ."""
    page = sheet("  - {do: Lift it out., remove: buzzer, only: [w2]}\n  - {do: Lay it in., fit: buzzer, only: [w2]}")

    lines = [" ".join(row.get_text(" ").split()) for row in page.select(".close tbody tr")]
    assert ["Case screw back item A, M2 × 5 4 of 4", "Back shell back 1 of 1", "Battery joined"] == lines[:3]
    assert "Buzzer back Wader W2 only 1 of 1" == lines[3]
    assert "w2" == page.select(".close tbody tr")[3]["data-variant"]


def test_steps_for_some_variants() -> None:
    """A step for some variants says so, to the script and to the reader; so does the device's own page."""
    pages = drawn({make.EXAMPLE: "title: Example\naccess: bare-board\nsteps:\n  - {do: Look on.}\n"})

    row = pages[EXAMPLE].select_one('[data-step="bare-board-opening-2"]')
    assert row is not None
    assert "w2" == row["data-variant"]
    assert "Unplug the buzzer. Wader W2 only" in " ".join(row.get_text(" ").split())
    assert "Unplug the buzzer. (Wader W2 only)" in pages["devices/wader.html"].get_text()


def test_hazard_in_words() -> None:
    """An authored caution stands before its step with its hazard in words, and at the head with the step's number."""
    page = sheet("""\
  - do: Look on.
    cautions: [{hazard: stored-energy, text: It bites.}, {hazard: esd, text: It is tender.}]""")

    assert ["Stored energy", "Static"] == [word.get_text() for word in page.select('[data-step="steps-1"] .msg-word b')]
    # Behind those of the dry run, which have a signal word, and before the rules of the house.
    assert ["Stored energy before W1", "Static before W1"] == need(page, "Safety messages")[-3:-1]


def test_spares() -> None:
    """Spares stand with their number; one that variants share is not counted for each."""
    page = sheet("  - {do: Lay it in., replace: lamp, only: [w1]}\n  - {do: Lay it in., replace: lamp, only: [w2]}")

    assert ["Lamp 1"] == need(page, "Spares")


@pytest.mark.parametrize(
    ("head", "step", "line"),
    [
        ("materials: {isopropanol: 0.5 mL}", "solvent: {material: isopropanol, volume: 500 µL, on: lamp}", "0.5 mL"),
        ("materials: {isopropanol: 1 mL}", "solvent: {material: isopropanol, volume: 0.2–0.5 mL, on: lamp}",
         "1 mL at hand, 0.5 mL used"),
        ("revision: 1", "solvent: {material: isopropanol, volume: 0.5 mL, on: lamp}", "0.5 mL"),
        ("revision: 1", "bath: {material: isopropanol, on: lamp, for: 1 min}", "as the step says"),
        ("materials: {isopropanol: 1 g}", "solvent: {material: isopropanol, volume: 0.5 mL, on: lamp}", "1 g"),
    ],
)  # fmt: skip
def test_supplies(head: str, step: str, line: str) -> None:
    """A supply stands with its amount, and with what is used of it where that is less; used, it stands unlisted too."""
    page = sheet(f"  - {{do: Do it., {step}}}", f"access: open\n{head}")

    assert [f"Isopropanol {line}"] == need(page, "Supplies, used up")


def test_supplies_of_an_opening() -> None:
    """What an opening uses up stands with the rest: a level has no list of its own."""
    shut = "{do: Shut the lamp down., power: off}"
    device = make.WADER.replace(shut, "{do: Shut the lamp down., power: off, apply: {isopropanol: 0.3 mL}}")

    assert ["Isopropanol 0.3 mL"] == need(sheet("  - {do: Look on.}", device=device), "Supplies, used up")


def test_supplies_of_the_variant_that_takes_most() -> None:
    """What is used on one variant or the other is counted once."""
    page = sheet(
        "  - {do: Do it., apply: {isopropanol: 0.3 mL}, only: [w1]}\n"
        "  - {do: Do it., apply: {isopropanol: 0.4 mL}, only: [w2]}",
        "access: open\nmaterials: {isopropanol: 1 mL}",
    )

    assert ["Isopropanol 1 mL at hand, 0.4 mL used"] == need(page, "Supplies, used up")


def test_bond_that_is_made_anew() -> None:
    """A bond that is made anew stands with the spares, with what it is made with."""
    device = make.WADER.replace("softens: 60–75 °C}", "softens: 60–75 °C, single_use: true}")
    step = "  - {do: Glue it., bond: {bond: lens-bond, with: lens-adhesive}}"

    assert ["Lens bond renewed, with Lens adhesive"] == need(sheet(step), "Spares")
    assert ["Lens bond always renewed, with Lens adhesive"] == need(sheet(step, device=device), "Spares")


def test_purpose() -> None:
    """A procedure that makes safe says so above its title."""
    page = sheet("  - {do: Look on.}", "purpose: make-safe")

    assert page.select(".title .label")[0].get_text() == "Procedure to make safe"


def test_review_is_due() -> None:
    """The next review is never later than the shop said, and an interval beyond the calendar gives none."""
    due = {}
    for interval in ("365 d", "30 d ± 2 d", "< 10 d", "99999999 d"):
        page = drawn({SHOP: f"{make.SHOP}review_after: '{interval}'\n"})["register.html"]
        due[interval] = page.select('td[data-label="Next review"]')[0].get_text().removesuffix("reviewed 2026-09-14")

    assert {"365 d": "2027-09-14", "30 d ± 2 d": "2026-10-12", "< 10 d": "2026-09-24", "99999999 d": "–"} == due


@pytest.mark.parametrize(
    ("several", "order"), [("false", ["Worn lamp 75 %", "Dead battery 25 %"]), ("true", ["Dead battery", "Worn lamp"])]
)
def test_causes(several: str, order: list[str]) -> None:
    """Causes are ranked by how often they were seen; those that come together are listed as written, without a rank."""
    text = f"""\
several: {several}
causes:
  flat: {{title: Dead battery, cures: [{{refer: {{title: The maker, price: 60 EUR}}}}]}}
  worn: {{title: Worn lamp, seen: 2, cures: [{{procedure: replace-lamp, success: 1 of 2}}]}}
"""
    page = drawn({f"{make.DOCS}/diagnosis/wader/no-light.yml": text})["symptoms/no-light.html"]

    rows = [
        f"{next(iter(row.th.strings))} {' '.join(text.get_text() for text in row.select('.share > span'))}".replace(
            "\N{NO-BREAK SPACE}", " "
        ).strip()
        for row in page.select('table[aria-label^="Causes"] tbody tr')
        if row.th
    ]
    assert order == rows
    assert (several == "true") is ("These faults come together" in page.get_text())


def test_battery_of_a_device() -> None:
    """A device's battery stands with its own title, its energy, and whether it is soldered in."""
    device = make.WADER.replace(
        "pack: {part: battery, plug: battery-plug,", "pack: {title: Pack, part: battery, soldered: true,"
    )
    device = re.sub(r"unplug: battery-plug|plug: battery-plug", "work: {kind: wipe, on: battery}", device)

    page = drawn({WADER: device})["devices/wader.html"]

    assert "Pack: li-ion, 1 cell, 4.4 Wh, soldered in" in page.get_text()


def test_every_link_leads_somewhere() -> None:
    """Links lead to pages that are there, also to a material that no list names, drafts shown or not."""
    draft = """\
title: Example
access: bare-board
fixes: [no-light]
steps:
  - {do: Wet it., solvent: {material: ethanol, volume: 1 mL, on: lamp}}
  - {do: Glue it., bond: {bond: lens-bond, with: lens-adhesive}}
"""
    for drafts in (True, False):
        pages = drawn({make.EXAMPLE: draft}, drafts=drafts)

        targets = {
            normpath(join(dirname(path), str(link["href"]).partition("#")[0]))
            for path, page in pages.items() for link in page.select("a[href]") if not str(link["href"]).startswith("#")
        }  # fmt: skip
        elsewhere = {"rules/index.html", "stop-and-make-safe.html"}
        assert set() == targets - set(pages) - elsewhere


@pytest.mark.parametrize(
    ("address", "link"),
    [
        ("https://x.invalid/{path}", "https://x.invalid/repairs/wader/example.yml"),
        ("https://x.invalid/?f={path!q}&n={path_noext}",
         "https://x.invalid/?f=repairs%2Fwader%2Fexample.yml&n=repairs/wader/example"),
        ("https://x.invalid/{branch}/{path}", "https://x.invalid/{branch}/repairs/wader/example.yml"),
    ],
)  # fmt: skip
def test_edit_link(address: str, link: str) -> None:
    """A page leads to its source by whatever address the settings give, with the blanks that MkDocs knows."""
    page = drawn({make.EXAMPLE: "title: Example\nsteps:\n  - {do: Look on.}\n"}, edit=address)[EXAMPLE]

    assert [link] == [found["href"] for found in page.select("footer a") if found.get_text() == "Edit this page"]


def test_no_path_of_a_source() -> None:
    """Where the settings name no address of sources, no page betrays where its file lies."""
    pages = make.pages(make.check({}), Options())

    assert [] == [path for path, text in pages.items() if ".yml" in text or f"{make.DOCS}/" in text]


def test_rule_pages() -> None:
    """Each rule has a page that says its weight, and a row in their list with its first sentence."""
    texts = {"odd-thing": "# odd-thing\n\n## What it finds\n\nA | thing\nthat is odd.\n\nMore.\n\n## Why\n"}

    pages = rule_pages(texts, {"odd-thing": "warning"})

    assert {"rules/odd-thing.md", "rules/index.md"} == set(pages)
    assert pages["rules/odd-thing.md"].startswith("# odd-thing\n\nA warning: ")
    assert r"| [odd-thing](odd-thing.md) | warning | A \| thing that is odd. |" in pages["rules/index.md"]
