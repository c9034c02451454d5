"""The picture of a heating step: what stands in it, in which unit, and the same in words."""

from __future__ import annotations

import math
import re
from itertools import pairwise
from typing import TYPE_CHECKING

import pytest

from benchleaf.derive.heated import heated
from tests import make
from tests.compose.drawing import sheet
from tests.dryrun.made import trace

if TYPE_CHECKING:
    from bs4 import BeautifulSoup

NEAR = "near: {battery: 60 mm}"
IRON = "  - {do: Solder it., solder: {part: lamp-socket, tool: iron, at: 350 °C, for: 3 s, times: 9, pause: 4 s}}"
SEVERAL = "near: {battery: 60 mm, lamp: {distance: 15 mm, via: air}, lens: {via: touching}, buzzer: {via: other-side}}"


def page(near: str, *, shop: str = make.SHOP, steps: str = IRON) -> BeautifulSoup:
    """Return the page of a step that heats the socket, with what is *near* it."""
    return sheet(steps, device=make.WADER.replace(NEAR, near), shop=shop)


def words(drawn: BeautifulSoup, at: int = 0) -> list[str]:
    """Return what stands below one of the pictures, line by line."""
    lines = drawn.select(".warm")[at].select("dl > div")
    return [" ".join(line.get_text(" ").split()) for line in lines]


def test_words() -> None:
    """Each neighbour stands below the picture with its number, how far it is, what it gets and what it bears."""
    w2 = words(page(SEVERAL), 1)

    assert [
        "1 Lens touching: 63–350 °C; bears 90 °C",
        "2 Buzzer on the other side: 63–350 °C; not known what it bears",
        "3 Lamp 15 mm through the air: at most 21 °C; bears 85 °C",
    ] == w2[:3]
    assert re.fullmatch(r"4 Battery 60 mm along the board: at most \d\d °C; bears 60 °C", w2[3])


def test_picture_has_a_label() -> None:
    """The picture says all of it to those who cannot see it."""
    drawn = page("near: {lamp: 12 mm}")
    [svg] = drawn.select(".warm svg")

    assert "img" == svg["role"]
    assert str(svg["aria-label"]).startswith(
        "How hot it gets beside Lamp socket, over the distance. 1 Lamp, 12 mm along"
    )
    assert words(drawn)[0].removeprefix("1 Lamp ") in str(svg["aria-label"])


def test_bars_are_told_apart() -> None:
    """What is not along the board has a word at its bar, and the bar through the air is broken."""
    drawn = page(SEVERAL)
    second = drawn.select(".warm")[1]

    assert ["touching", "other side", "through air"] == [text.get_text() for text in second.select("text[transform]")]
    assert 1 == len(second.select(".reach.air"))
    assert 3 == len(second.select(".bears"))
    assert 4 == len(second.select(".reach"))


def test_bars_stand_apart() -> None:
    """Neighbours that are equally far stand side by side, in the order of their words."""
    drawn = page("near: {lamp: 20 mm, battery: 20 mm, lens: 20 mm}")
    places = [int(str(text["x"])) for text in drawn.select(".warm text.item")]

    assert all(right - left >= 14 for left, right in pairwise(places))


def test_inside_the_frame() -> None:
    """Nothing leaves the frame of the axes: the board's line is cut off where it is hotter than what is shown."""
    drawn = page("near: {battery: 38 mm}")
    [line] = drawn.select(".warm polyline")
    corners = [tuple(map(int, corner.split(","))) for corner in str(line["points"]).split()]

    assert len(corners) >= 2
    assert all(40 <= x <= 392 and 24 <= y <= 166 for x, y in corners)
    assert 24 == corners[0][1]


@pytest.mark.parametrize(("unit", "bears"), [("°C", "85 °C"), ("°F", "185 °F (written 85 °C)")])
def test_unit_of_the_shop(unit: str, bears: str) -> None:
    """Axis and words are in the shop's unit: the low end rounded down, the high end up."""
    near = "near: {lamp: 12 mm}"
    [(one, _)] = heated([trace(IRON.strip(), wader=make.WADER.replace(NEAR, near))])
    low, high = (end if unit == "°C" else 32 + 1.8 * end for end in (one.neighbours[0].low, one.neighbours[0].high))

    drawn = page(near, shop=make.SHOP.replace("temperature: °C}", f"temperature: {unit}}}"))

    assert unit == drawn.select(".warm text")[0].get_text()
    assert [
        f"1 Lamp 12 mm along the board: {math.floor(low)}–{math.ceil(high)} {unit}; bears {bears}"
    ] == words(drawn)  # fmt: skip


def test_kept_by_measuring() -> None:
    """What the step keeps cool by measuring says so."""
    steps = (
        "  - {do: Warm it., heat: {tool: heat-mat, at: 65 °C, for: 5 min, on: lens, "
        "hold: {part: battery, below: 45 °C, with: thermocouple}}}"
    )

    [line] = words(sheet(steps))

    assert ", kept below 45 °C by measuring; bears 60 °C" in line


@pytest.mark.parametrize("near", ["near: {lamp: 900 m}", "near: {lamp: 0.2 mm}"])
def test_any_distance(near: str) -> None:
    """However far a neighbour is said to be, its axis has a few numbers."""
    drawn = page(near)

    assert 2 <= len(drawn.select(".warm text.middle:not(.item)")) <= 8


@pytest.mark.parametrize("limit", ["9000000000 °C", "-200 °C", "≤ 60 °C"])
def test_any_limit(limit: str) -> None:
    """Whatever a neighbour is said to bear, the picture has its axis."""
    device = make.WADER.replace(NEAR, "near: {lamp: 12 mm}").replace("heat_limit: 85 °C", f"heat_limit: {limit}")

    assert 2 <= len(sheet(IRON, device=device).select(".warm text.degree")) <= 9


def test_none_where_nothing_is_near() -> None:
    """A step that heats where nothing is near has no picture."""
    assert [] == page("near: {}").select(".warm")
