"""The square code of printed sheets, read again by a library that knows nothing of ours."""

from __future__ import annotations

import re

import pytest
import zxingcpp
from PIL import Image, ImageDraw

from benchleaf.pages.compose.code import code

ADDRESSES = [
    "https://procedures.saltmarsh.invalid/repairs/godwit/clean-charge-port.html",
    "http://bench.lan/a.html",
    "http://192.0.2.7:8000/repairs/dunlin/" + "renew-a-part-with-a-long-name-" * 4 + ".html",
]


@pytest.mark.outside
@pytest.mark.parametrize("address", ADDRESSES)
def test_code_is_read_back(address: str) -> None:
    """A reader of codes (ZXing) gets the address back from the printed modules."""
    drawn = code(address)
    assert drawn

    found = zxingcpp.read_barcode(_printed(drawn.path, int(drawn.side)))

    assert found
    assert found.text == address


def test_no_address_no_code() -> None:
    """A site that has no address gets no code: nothing would answer."""
    assert code("") is None


def _printed(path: str, side: int) -> Image.Image:
    """Return the *path* in black on white, four points a module."""
    paper = Image.new("L", (side * 4, side * 4), 255)
    pen = ImageDraw.Draw(paper)
    for x, y, length in re.findall(r"M(\d+) (\d+)h(\d+)v1h-\d+z", path):
        pen.rectangle((int(x) * 4, int(y) * 4, (int(x) + int(length)) * 4 - 1, int(y) * 4 + 3), fill=0)
    return paper
