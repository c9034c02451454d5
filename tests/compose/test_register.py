"""The register: every procedure with what was accepted in it, and what nothing is written for."""

from __future__ import annotations

import pytest
from bs4 import BeautifulSoup, Tag

from benchleaf.pages.compose.site import Options
from tests import make

WADER, TOOLS, SYMPTOMS = (f"{make.DOCS}/{name}.yml" for name in ("devices/wader", "tools", "symptoms"))
LONGER = """\
  frame-screw:
    {title: Frame screw, thread: M2, length: 6 mm, grade: "8.8", drive: T4, count: 2, into: brass, engagement: 4 mm,
     torque: 12 cN·m}
"""


def register(changes: dict[str, str | bytes | None], *, drafts: bool = True) -> BeautifulSoup:
    """Return the register of the small knowledge base with *changes*."""
    pages = make.pages(make.check(changes), Options(drafts=drafts))
    return BeautifulSoup(pages["register.html"], "html.parser")


def entry(page: BeautifulSoup, name: str) -> dict[str, str]:
    """Return the cells of the procedure *name*, each in one line, by their labels."""
    (row,) = [row for row in page.select(".register tbody tr") if f"/ {name}" in row.get_text()]
    return {str(cell["data-label"]): line(cell) for cell in row.select("td")}


def line(tag: Tag) -> str:
    """Return the text of *tag* in one line."""
    return " ".join(tag.get_text(" ").split())


def example(steps: str, head: str = "access: open") -> dict[str, str | bytes | None]:
    """Return a draft with *steps* as a change to the small knowledge base."""
    return {make.EXAMPLE: f"title: Example\n{head}\nsteps:\n{steps}\n"}


def test_allowed_and_found() -> None:
    """What was found and is allowed stands with its rule, its step and the reason."""
    allow = "allow: [{rule: listing-mismatch, because: It is at hand.}]"
    page = register(example(f"  - {{do: Put on some flux., apply: {{no-clean-flux: 0.1 mL}}, {allow}}}"))

    assert "listing-mismatch at W1 It is at hand." == entry(page, "example")["Allowed findings"]


def test_allowed_and_not_found() -> None:
    """An exception that silences nothing is no finding of the register."""
    page = register(example("  - {do: Look on., allow: [{rule: listing-mismatch, because: It is at hand.}]}"))

    assert "–" == entry(page, "example")["Allowed findings"]


def test_allowed_on_some_variants() -> None:
    """A finding that holds on some of the variants says on which."""
    allow = "allow: [{rule: part-left-out, because: It is sent on.}]"
    page = register(example(f"  - {{do: Lift the buzzer out., remove: buzzer, only: [w2], {allow}}}"))

    assert "part-left-out at W1, Wader W2 only It is sent on." == entry(page, "example")["Allowed findings"]


def test_allowed_in_a_level() -> None:
    """What is allowed in an opening stands once, and each procedure that passes the level leads there."""
    allow = "allow: [{rule: listing-mismatch, because: It hangs at the bench.}]"
    shut = "{do: Shut the lamp down., power: off"
    page = register(
        {WADER: make.WADER.replace(shut, f"{shut}, use: [microscope], {allow}"), **example("  - {do: Look on.}")}
    )

    (shared,) = page.select("#level-wader-open")
    assert "listing-mismatch at opening, step 1 It hangs at the bench." == line(shared.select("td")[0])
    links = [link["href"] for link in page.select(".register a") if "level" in link.get_text()]
    assert ["#level-wader-open"] * 2 == links


def test_safety_messages() -> None:
    """The messages of the dry run and an author's own are counted, with the first step that has most."""
    own = ", ".join(f"{{hazard: {hazard}, text: It is cut steel.}}" for hazard in ("sharp", "eye", "property"))
    without = entry(register(example("  - do: Bend the clip back.")), "example")["Safety messages"]
    told = entry(register(example(f"  - do: Bend the clip back.\n    cautions: [{own}]")), "example")["Safety messages"]

    assert ("3 in 9 steps at most 2, before O2", "6 in 9 steps at most 3, before W1") == (without, told)


def test_not_for() -> None:
    """The variants of the device that a procedure does not fit are named."""
    page = register(example("  - {do: Look on.}", "access: open\nvariants: [w2]"))

    assert ("Wader W2", "Wader W1") == (
        entry(page, "example")["For"].removesuffix(" open"),
        entry(page, "example")["Not for"],
    )
    assert "–" == entry(page, "replace-lamp")["Not for"]


def test_withdrawn() -> None:
    """A withdrawn procedure is not performed: nothing is said of its messages, and nobody takes that for none."""
    page = register(example("  - {do: Look on.}", "access: open\nstatus: withdrawn"))

    assert ("withdrawn", "–") == (entry(page, "example")["Status"], entry(page, "example")["Safety messages"])


@pytest.mark.parametrize(
    ("head", "none", "some"),
    [
        ("status: draft", "Gives no sound", "–"),
        ("status: approved\nfixes: [no-sound]", "–", "–"),
        ("status: approved\nfixes: [no-sound]\nvariants: [w2]", "–", "Gives no sound on Wader W1"),
    ],
)
def test_nothing_is_written(head: str, none: str, some: str) -> None:
    """A symptom with neither a procedure nor a diagnosis stands under its device, on some variants or on all."""
    changes = {SYMPTOMS: f"{make.SYMPTOMS}no-sound:\n  title: Gives no sound\n  customers_say: [is silent]\n"}
    page = register({**changes, **example("  - {do: Look on.}", f"access: open\n{head}")}, drafts=False)

    (row,) = page.select("table[aria-label='Neither a procedure nor a diagnosis'] tbody tr")
    assert [none, some] == [line(cell) for cell in row.select("td")]


def test_a_diagnosis_answers() -> None:
    """A diagnosis answers its symptom on all variants; so does a procedure for any device."""
    symptoms = f"{make.SYMPTOMS}no-sound:\n  title: Gives no sound\n  customers_say: [is silent]\n"
    diagnosis = "causes:\n  worn: {title: Worn buzzer, cures: [{refer: {title: The maker, price: 60 EUR}}]}\n"
    by_diagnosis = register({SYMPTOMS: symptoms, f"{make.DOCS}/diagnosis/wader/no-sound.yml": diagnosis})
    listen = "title: Listen\nstatus: approved\nfixes: [no-sound]\nsteps: [{do: Listen to it.}]\n"
    for_any = register({SYMPTOMS: symptoms, f"{make.DOCS}/repairs/any/listen.yml": listen})

    for page in (by_diagnosis, for_any):
        (row,) = page.select("table[aria-label='Neither a procedure nor a diagnosis'] tbody tr")
        assert ["–", "–"] == [line(cell) for cell in row.select("td")]


def test_no_clock_and_no_score() -> None:
    """The register gives dates and counts: nothing in it depends on the day or marks a procedure as good or bad."""
    text = register({}, drafts=False).get_text().lower()

    assert [] == [
        word for word in ("overdue", "late ", "score", "rating", "%") if word in text.replace("which are late", "")
    ]
