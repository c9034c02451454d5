"""The access tree as a drawing: a box for each level, joined to the level that it starts from."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from benchleaf.derive.lasting import lasting
from benchleaf.derive.numbering import Numbered
from benchleaf.model.device import CLOSED
from benchleaf.model.words import applies
from benchleaf.pages.compose.site import only_for
from benchleaf.pages.device import TreeBox, TreeLine, TreeView
from benchleaf.units import show

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from benchleaf.model.device import Access, Device
    from benchleaf.pages.compose.site import Site

# In units of the picture, of which a letter is 14 high: a box, what is between two, a line of it, what is before it.
_WIDE, _APART, _LINE, _INSET, _BETWEEN, _LETTER = 150, 26, 18, 9, 12, 14
_LONGEST = 17  # letters in a box
# So many columns fit a phone, and so many a sheet of A4; more are said by the outline alone.
_FEW, _MOST = 3, 5


def tree(site: Site, device: Device) -> TreeView | None:
    """Return the drawing of the access levels of *device*; None where nothing opens, or too deep for a page."""
    levels = list(_placed(device))
    columns = 1 + max((column for _, _, column, _ in levels), default=0)
    if not levels or columns > _MOST:
        return None
    counts = working_at(site, device)
    told = [(CLOSED, _lines(device, None, counts)), *((one.id, _lines(device, one, counts)) for one, *_ in levels)]
    tall = 2 * _INSET - 4 + _LINE * max(len(lines) for _, lines in told)
    row = tall + _BETWEEN
    places = [(0, 0), *((column, at) for _, _, column, at in levels)]
    width = _WIDE * columns + _APART * (columns - 1) + 2
    return TreeView(
        view_box=f"0 0 {width} {row * (1 + max(at for _, at in places)) - _BETWEEN + 2}",
        width=f"{width / _LETTER:.1f}em",
        label="Access levels. " + "; ".join(_said(device, name, lines) for name, lines in told) + ".",
        caption="Minutes: in and out again, from the level before.",
        wide=columns > _FEW,
        boxes=tuple(_box(places[at], row, tall, lines) for at, (_, lines) in enumerate(told)),
        joins=tuple(_join(places[0 if parent is None else parent], place, row, tall)
                    for (_, parent, *_), place in zip(levels, places[1:], strict=True)),
    )  # fmt: skip


def working_at(site: Site, device: Device) -> Mapping[str, str]:
    """Return how many procedures work at each level of *device*, in words."""
    counts = Counter(procedure.access.text for procedure in site.usage.by_device.get(device.id, ()))
    return {
        level: "1 procedure" if counts[level] == 1 else f"{counts[level]} procedures"
        for level in (CLOSED, *device.access)
    }


def _placed(device: Device) -> Iterator[tuple[Access, int | None, int, int]]:
    """Yield each level with the place of its parent in this order, its column and its row; the first is beside it."""
    order: dict[str, int] = {}
    rows = -1

    def below(parent: str, column: int) -> Iterator[tuple[Access, int | None, int, int]]:
        nonlocal rows
        children = [level for level in device.access.values() if level.parent.text == parent]
        for number, level in enumerate(children):
            rows += number > 0 or parent == CLOSED
            order[level.id] = len(order) + 1
            yield level, order.get(parent), column, rows
            yield from below(level.id, column + 1)

    yield from below(CLOSED, 1)


def _lines(device: Device, level: Access | None, counts: Mapping[str, str]) -> tuple[str, ...]:
    """Return what stands in the box of *level*: its name, its minutes, how many procedures work there."""
    procedures = counts[level.id if level else CLOSED]
    if level is None:
        return (CLOSED, procedures)
    rows = [Numbered("", "", level, step) for step in (*level.opening, *level.closing)]
    hands, waiting = lasting(rows, [name for name in device.variant_ids if applies(level.only, name)])
    both = hands + waiting
    only = only_for(device, level.only)
    return (level.id, show.interval(both.low, both.high), procedures, *([only.text] if only else []))


def _said(device: Device, name: str, lines: tuple[str, ...]) -> str:
    level = device.access.get(name)
    start = f", from {level.parent}" if level else ""
    return f"{name}{start}: {', '.join(lines[1:])}"


def _box(place: tuple[int, int], row: int, tall: int, lines: tuple[str, ...]) -> TreeBox:
    x, y = _corner(place, row)
    texts = (TreeLine(str(y + _INSET + _LINE * (number + 1) - 6), _cut(text)) for number, text in enumerate(lines))
    return TreeBox(str(x), str(y), str(_WIDE), str(tall), str(x + _INSET), tuple(texts))


def _join(parent: tuple[int, int], place: tuple[int, int], row: int, tall: int) -> str:
    """Return the line from the box of *parent* to the one at *place*: across, down, across."""
    (left, high), (right, low) = _corner(parent, row), _corner(place, row)
    return f"M{left + _WIDE} {high + tall // 2}H{right - _APART // 2}V{low + tall // 2}H{right}"


def _corner(place: tuple[int, int], row: int) -> tuple[int, int]:
    column, at = place
    return 1 + column * (_WIDE + _APART), 1 + at * row


def _cut(text: str) -> str:
    return text if len(text) <= _LONGEST else f"{text[: _LONGEST - 1]}…"
