"""What holds for every template and for the one stylesheet."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest

from tests.conftest import ROOT

if TYPE_CHECKING:
    from pathlib import Path

OVERRIDES = ROOT / "site_overrides"
TEMPLATES = sorted(OVERRIDES.rglob("*.html"))
STYLES = (OVERRIDES / "assets" / "benchleaf.css").read_text("utf-8")
SHADES = {
    "text on the sheet": ("ink", "paper", 7),
    "text beside the sheet": ("ink", "desk", 7),
    "labels on the sheet": ("ink-2", "paper", 4.5),
    "labels beside the sheet": ("ink-2", "desk", 4.5),
    "labels on a tint": ("ink-2", "tint", 4.5),
    "links on the sheet": ("accent", "paper", 4.5),
    "links beside the sheet": ("accent", "desk", 4.5),
    "links on the marked row": ("accent", "accent-tint", 4.5),
    "heavy lines": ("line", "paper", 3),
}
SIGNALS = {"danger": "#ffffff", "warning": "#000000", "caution": "#000000", "notice": "#ffffff"}


def values(block: str) -> dict[str, str]:
    """Return the colours that one block of the stylesheet names."""
    return dict(re.findall(r"--([\w-]+): (#[0-9a-f]{3,6});", block))


LIGHT = values(STYLES[: STYLES.index("@media")])
DARK = LIGHT | values(STYLES[STYLES.index('[data-scheme="dark"]') :][:400])


def luminance(colour: str) -> float:
    """Return the relative luminance of a colour, by the formula of WCAG 2.2."""
    digits = colour.removeprefix("#")
    pairs = [digits[at : at + 2] for at in (0, 2, 4)] if len(digits) == 6 else [digit * 2 for digit in digits]
    shares = [int(pair, 16) / 255 for pair in pairs]
    linear = [share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4 for share in shares]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """Return the contrast ratio of two colours, by the formula of WCAG 2.2."""
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


@pytest.mark.outside
@pytest.mark.parametrize(("one", "other", "ratio"), [("#000", "#fff", 21.0), ("#767676", "#fff", 4.542)])
def test_contrast_formula(one: str, other: str, ratio: float) -> None:
    """The formula gives the ratios that are published for it: black on white, and the lightest grey that passes."""
    assert ratio == pytest.approx(contrast(one, other), abs=0.001)


@pytest.mark.parametrize("what", SHADES)
@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
def test_contrast(what: str, colours: dict[str, str]) -> None:
    """What is to be read stands out enough, in light and in dark."""
    front, back, least = SHADES[what]

    assert contrast(colours[front], colours[back]) >= least


@pytest.mark.parametrize("signal", SIGNALS)
def test_signal_contrast(signal: str) -> None:
    """A signal word stands out from its colour: white on red and blue, black on orange and yellow."""
    assert contrast(LIGHT[signal], SIGNALS[signal]) >= 4.5


@pytest.mark.parametrize("template", TEMPLATES, ids=lambda path: path.relative_to(OVERRIDES).as_posix())
def test_template_decides_nothing(template: Path) -> None:
    """A template takes no text as HTML, counts nothing, and holds neither style nor handler."""
    text = template.read_text("utf-8")

    assert [] == re.findall(
        r"\|\s*safe\b|\{\{[^}]*[*/+%][^}]*\}\}|\sstyle=|\son\w+=|<style|\| ?(?:round|int|float)", text
    )


@pytest.mark.parametrize("template", TEMPLATES, ids=lambda path: path.relative_to(OVERRIDES).as_posix())
def test_template_says_what_it_is(template: Path) -> None:
    """A template begins with a sentence about what it draws; only what it takes from others may stand before it."""
    assert re.match(r"(\{% from [^%]+%\}\n)*\{# [A-Z].+?[.] #\}", template.read_text("utf-8"))


def test_no_request_leaves_the_site() -> None:
    """The stylesheet loads nothing."""
    assert [] == re.findall(r"@import|url\(", STYLES)
