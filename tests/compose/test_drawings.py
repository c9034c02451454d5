"""The drawings of a device's page: how one gets in, and where its screws are."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests import make
from tests.compose.drawing import WADER, drawn

if TYPE_CHECKING:
    from bs4 import BeautifulSoup, Tag

PLAN = "plan:\n  size: [60 mm, 90 mm]\n  at:\n    case-screw: [[5, 5], [55, 5], [5, 85], [55, 85]]\n"
FRONT = """\
  front:
    title: Front off
    from: closed
    only: [w2]
    opening:
      - {do: Lift the lens off., remove: lens, takes: 1–2 min}
    closing:
      - {do: Lay the lens in., fit: lens, takes: 2–3 min}
"""


def page(device: str) -> BeautifulSoup:
    """Return the page of the wader as *device* has it."""
    return drawn({WADER: device})["devices/wader.html"]


def boxes(figure: Tag) -> list[list[str]]:
    """Return the lines of each box of the access tree."""
    found: list[list[str]] = []
    for text in figure.select("text"):
        if text.get("class") == ["item"]:
            found.append([])
        found[-1].append(text.get_text())
    return found


def levels(more: int) -> str:
    """Return the wader with *more* levels behind its last one."""
    return make.WADER + "".join(
        f"  deep-{n}:\n    title: Deep\n    from: {f'deep-{n - 1}' if n else 'bare-board'}\n"
        "    opening: [{do: Look.}]\n    closing: [{do: Look.}]\n"
        for n in range(more)
    )


def test_boxes_of_the_levels() -> None:
    """Each level has a box with its minutes in and out again and the number of its procedures; closed is the root."""
    [figure] = page(make.WADER + FRONT).select("figure.tree")

    found = boxes(figure)

    assert ["closed", "open", "bare-board", "front"] == [box[0] for box in found]
    assert ["closed", "0 procedures"] == found[0]
    assert "1 procedure" == found[1][2]
    assert ["front", "3–5 min", "0 procedures", "Wader W2 only"] == found[3]


def test_boxes_are_joined() -> None:
    """Each level but the root is joined to the one that it starts from, and no two boxes lie on each other."""
    [figure] = page(make.WADER + FRONT).select("figure.tree")
    places = [(str(box["x"]), str(box["y"])) for box in figure.select("rect")]

    assert 3 == len(figure.select("path"))
    assert len(places) == len(set(places))


def test_tree_says_all_of_it() -> None:
    """The drawing says to those who cannot see it what each level starts from, and the outline stays."""
    drawing = page(make.WADER)
    [svg] = drawing.select("figure.tree svg")

    assert "img" == svg["role"]
    assert "bare-board, from open: " in str(svg["aria-label"])
    assert {"level-closed", "level-open", "level-bare-board"} <= {
        str(one["id"]) for one in drawing.select(".access li[id]")
    }


def test_outline_says_the_same() -> None:
    """The outline gives minutes and procedures too, where the drawing finds no room."""
    notes = [note.get_text() for note in page(make.WADER).select(".access .level .num")]

    assert "0 procedures" == notes[0]
    assert notes[1].endswith(" out; 1 procedure")


@pytest.mark.parametrize(("more", "classes"), [(0, ["plan", "tree"]), (1, ["plan", "tree", "wide"])])
def test_a_deep_tree_is_wide(more: int, classes: list[str]) -> None:
    """A tree that is too wide for a phone says so to the stylesheet."""
    [figure] = page(levels(more)).select("figure.tree")

    assert classes == figure["class"]


def test_too_deep_for_a_drawing() -> None:
    """A tree of more levels than a page has room for is said by the outline alone."""
    drawing = page(levels(6))

    assert [] == drawing.select("figure.tree")
    assert 9 == len(drawing.select(".access li[id]"))


def test_plan_names_its_items() -> None:
    """The plan says of each item its letter, its thread and length and its line style; the schedule its torque."""
    drawing = page(make.WADER + PLAN)
    [row] = drawing.select('[aria-label="Fastener schedule"] tbody tr')

    assert "Seen from the opened side. A: M2 × 5, thin." == drawing.select(".plan:not(.tree) figcaption")[0].get_text()
    assert ["A Case screw", "M2 × 5into brass, 4 mm", "T4", "4", "12 cN·m"] == [
        cell.get_text().strip() for cell in row.select("th, td")
    ]


def test_no_length() -> None:
    """A screw without a length says that nobody gave it."""
    [row] = page(make.WADER.replace("length: 5 mm, ", "")).select('[aria-label="Fastener schedule"] tbody tr')

    assert "length not given" in row.get_text()


@pytest.mark.parametrize(("items", "letters"), [(5, 0), (6, 4)])
def test_styles_that_are_shared(items: int, letters: int) -> None:
    """Where two items share a line style the letter stands at each of their holes, and at no other."""
    screw = make.WADER[make.WADER.index("  case-screw:") : make.WADER.index("access:")]
    more = "".join(screw.replace("case-screw:", f"screw-{n}:") for n in range(items - 1))
    places = "".join(f"    screw-{n}: [[{10 * n + 5}, 40], [{10 * n + 5}, 60]]\n" for n in range(items - 1))
    plan = PLAN.replace("[[5, 5], [55, 5], [5, 85], [55, 85]]", "[[5, 5], [55, 5]]")

    drawing = page(make.WADER.replace("access:\n", f"{more}access:\n", 1) + plan + places)

    assert letters + items == len(drawing.select(".plan:not(.tree) svg .item"))


@pytest.mark.parametrize("size", ["60 mm, 90 mm", "200 mm, 300 mm", "30 mm, 300 mm"])
def test_letters_grow_with_the_device(size: str) -> None:
    """The letters of the plan are a fixed share of its width and height at least, however large the device is."""
    [svg] = page(make.WADER + PLAN.replace("60 mm, 90 mm", size)).select(".plan:not(.tree) svg")
    _, _, width, height = map(int, str(svg["viewbox"]).split())
    letter = int(str(svg.select("text")[0]["font-size"]))

    assert letter * 28.5 >= width
    assert letter * 48.5 >= height
