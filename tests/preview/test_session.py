"""What a preview remembers: only what changed is drawn, and what it shows is what a fresh draw would show."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from benchleaf.pages.compose.site import Options
from benchleaf.preview.session import Session
from tests.make import DOCS, MATERIALS, REPLACE_LAMP, SHOP, SYMPTOMS, TOOLS, WADER, folder

if TYPE_CHECKING:
    from collections.abc import Mapping

    from benchleaf.pages import whole

LAMP = f"{DOCS}/repairs/wader/replace-lamp.yml"
LOOK = f"{DOCS}/repairs/wader/look-at-lens.yml"
SAFE = f"{DOCS}/repairs/any/lay-aside.yml"
DEVICE = f"{DOCS}/devices/wader.yml"
DIAGNOSIS = f"{DOCS}/diagnosis/wader/no-light.yml"
LOOK_AT_LENS = """\
title: Look at the lens
status: draft
purpose: inspection
steps:
  - do: Look at the lens.
    check: {look: The lens is whole., if_not: {go_to: replace-lamp}}
"""
LAY_ASIDE = """\
title: Lay the device aside
status: draft
purpose: make-safe
steps:
  - {do: Lay the device in the sand box.}
"""
NO_LIGHT = """\
causes:
  lamp: {title: The lamp is dead, seen: 3, cures: [{procedure: replace-lamp}]}
  other: {title: Something else, seen: 1, cures: [{refer: {title: Another shop, price: 60 EUR}}]}
"""
START = {LOOK: LOOK_AT_LENS, SAFE: LAY_ASIDE}
EDITS: tuple[tuple[str, str, str | None], ...] = (
    ("a title that others show", LAMP, REPLACE_LAMP.replace("Replace the lamp", "Change the lamp")),
    ("a remark above everything", LAMP, f"# A remark.\n{REPLACE_LAMP}"),
    ("a status", LAMP, REPLACE_LAMP.replace("approved", "in-review")),
    ("a step", LOOK, LOOK_AT_LENS.replace("Look at the lens.", "Look into the lens.")),
    ("a procedure for any device", SAFE, LAY_ASIDE.replace("sand box", "steel box")),
    ("a symptom", f"{DOCS}/symptoms.yml", SYMPTOMS.replace("Gives no light", "Stays dark")),
    ("a part", DEVICE, WADER.replace("title: Lamp,", "title: Small lamp,")),
    ("a look in the opening", DEVICE, WADER.replace("Leave it and fetch the sand box.", "Leave it.")),
    ("a tool", f"{DOCS}/tools.yml", TOOLS.replace("title: Multimeter", "title: Small multimeter")),
    ("a material", f"{DOCS}/materials.yml", MATERIALS.replace("No-clean flux", "Mild flux")),
    ("a room", f"{DOCS}/shop.yml", SHOP.replace("45 m³", "30 m³")),
    ("a diagnosis", DIAGNOSIS, NO_LIGHT),
    ("a file that is gone", LOOK, None),
)


def draw(session: Session, changes: Mapping[str, str | None]) -> tuple[whole.Pages, whole.Pages]:
    """Return what is drawn first of the base with *changes*, and the whole site."""
    first, every = session.draw(session.check(folder({**START, **changes})))
    return dict(first), dict(every)


@pytest.mark.parametrize(("path", "text"), [edit[1:] for edit in EDITS], ids=[edit[0] for edit in EDITS])
def test_as_if_drawn_afresh(path: str, text: str | None) -> None:
    """After an edit, and after it is taken back, every page is the one that a fresh draw makes."""
    session = Session(Options(drafts=True))
    before = draw(session, {})[1]

    there = draw(session, {path: text})[1]
    back = draw(session, {})[1]

    assert draw(Session(Options(drafts=True)), {path: text})[1] == there
    assert before == back


def test_only_what_changed() -> None:
    """An edit of one procedure draws its own pages, those of what leads to it, and no other procedure's."""
    session = Session(Options(drafts=True))
    draw(session, {})

    nothing = draw(session, {})[0]
    own = draw(session, {SAFE: LAY_ASIDE.replace("sand box", "steel box")})[0]
    led_to = draw(session, {SAFE: LAY_ASIDE, LAMP: REPLACE_LAMP.replace("Replace the lamp", "Change the lamp")})[0]

    assert {} == nothing
    assert {"any/lay-aside"} == {path.split("/", 1)[1].removesuffix(".html") for path in own}
    assert {"any/lay-aside", "wader/replace-lamp", "wader/look-at-lens"} == {
        path.split("/", 1)[1].removesuffix(".html") for path in led_to
    }


@pytest.mark.parametrize(
    "broken",
    [{LAMP: REPLACE_LAMP.replace("steps:", "stepps:")}, {DEVICE: "parts: ["}, {f"{DOCS}/symptoms.yml": "- 1"},
     {LAMP: REPLACE_LAMP.replace("steps:", "stepps:"), LOOK: "title: ["}],
)  # fmt: skip
def test_last_good(broken: dict[str, str | None]) -> None:
    """What a file breaks is shown as it was, all of it, and what was mended shows at once."""
    session = Session(Options(drafts=True))
    before = draw(session, {})[1]

    shown = draw(session, broken)[1]
    mended = draw(session, {LOOK: LOOK_AT_LENS.replace("The lens is whole", "The lens is clear")})[1]

    ours = {path for path in before if path.startswith(("repairs/", "bench/", "devices/"))}
    assert {path: before[path] for path in ours} == {path: shown[path] for path in ours}
    assert "The lens is clear" in mended["repairs/wader/look-at-lens.html"]


def test_other_file_beside_a_broken_one() -> None:
    """While one file is broken, an edit of another one shows."""
    session = Session(Options(drafts=True))
    draw(session, {})

    shown = draw(session, {LAMP: "title: [", SAFE: LAY_ASIDE.replace("sand box", "steel box")})[1]

    assert "steel box" in shown["repairs/any/lay-aside.html"]
    assert "Replace the lamp" in shown["repairs/wader/replace-lamp.html"]
