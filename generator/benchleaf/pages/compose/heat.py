"""The picture of a heating step: how hot it gets over the distance, and what is beside it; drawn in black alone."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import TYPE_CHECKING

from benchleaf.pages.compose.site import variant_titles
from benchleaf.pages.parts import Only
from benchleaf.pages.sheet import HeatBar, HeatView, Tick
from benchleaf.units.dimensions import spellings

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from benchleaf.derive.heated import Heated, Neighbour
    from benchleaf.derive.outcome import Outcome
    from benchleaf.model.device import Device
    from benchleaf.pages.compose.limits import Limits
    from benchleaf.units.dimensions import Unit

# In units of the picture: its size, the frame of its axes, and the room of a bar beside another.
_WIDE, _TALL, _LEFT, _RIGHT, _TOP, _BOTTOM, _ROOM = 400, 210, 40, 392, 24, 166, 14
# Half the tick of a limit, how far its number stands above it, and the room of a word that is written up a bar.
_HALF, _ABOVE, _WORD = 6, 6, 20
_MOST_TICKS, _LONGEST = 6, 42
# Of what is shown, so much stands free above the hottest bar or limit.
_HEADROOM = 1.1
_MM = 1e-3
# A number that was converted must not move to the next whole one by its own error.
_ERROR = 1e-6
_WAYS = {
    "board": "along the board", "air": "through the air", "touching": "touching", "other-side": "on the other side",
}  # fmt: skip
_SHORT = {"air": "through air", "touching": "touching", "other-side": "other side"}


def heat_pictures(device: Device | None, outcome: Outcome, limits: Limits) -> Mapping[str, tuple[HeatView, ...]]:
    """Return the pictures by step id, in the shop's unit."""
    found: dict[str, list[HeatView]] = {}
    degrees = spellings("temperature").get(limits.temperature) or spellings("temperature")["°C"]
    for one, variants in outcome.heated:
        only = Only(" ".join(variants), f"{variant_titles(device, variants)} only") if variants else None
        found.setdefault(one.step, []).append(_Picture(device, one, limits, degrees).view(only))
    return {step: tuple(views) for step, views in found.items()}


class _Picture:
    """Gathers what the parts of one picture share: its axes and its names."""

    def __init__(self, device: Device | None, heated: Heated, limits: Limits, unit: Unit) -> None:
        self._device, self._heated, self._limits, self._unit = device, heated, limits, unit
        # What touches stands before the axis of distances begins, one beside the other.
        self._meets = sum(1 for one in heated.neighbours if one.distance == 0)
        self._zero = _LEFT + (_ROOM + _WORD) * max(0, self._meets - 1) + _ROOM
        shown = [end for one in heated.neighbours for end in (one.high, one.limit) if end is not None]
        self._cold = unit.from_base(heated.room)
        span = max(1.0, unit.from_base(max(shown)) - self._cold) * _HEADROOM
        self._step = _step(span)
        self._floor = math.floor(self._cold / self._step) * self._step
        self._ceiling = math.ceil((self._cold + span) / self._step) * self._step

    def view(self, only: Only | None) -> HeatView:
        part = self._name(self._heated.part)
        bars = tuple(self._bars())
        said = "; ".join(f"{bar.number} {bar.name}, {bar.words}" for bar in bars)
        curve = " ".join(self._curve())
        line = "Line: the board itself, at its cautious end. " if curve else ""
        return HeatView(
            view_box=f"0 0 {_WIDE} {_TALL}",
            label=f"How hot it gets beside {part}, over the distance. {said}.",
            left=str(_LEFT), right=str(_RIGHT), top=str(_TOP), bottom=str(_BOTTOM), unit=self._unit.symbol,
            across=_cut(f"mm from: {part}"), across_at=str(_BOTTOM + 38),
            degrees=tuple(self._degrees()), distances=tuple(self._distances()), bars=bars, curve=curve,
            caption=f"{line}Bar: from low to high, an estimate with all heat so far. Tick: what it bears.",
            only=only,
        )  # fmt: skip

    def _name(self, part: str) -> str:
        known = self._device.parts.get(part) if self._device else None
        return known.title.text if known else part

    def _x(self, distance: float) -> float:
        return self._zero + (_RIGHT - self._zero) * distance / self._heated.reach

    def _y(self, celsius: float) -> float:
        return self._at(self._unit.from_base(celsius))

    def _at(self, degrees: float) -> float:
        share = (degrees - self._floor) / (self._ceiling - self._floor)
        return _BOTTOM - (_BOTTOM - _TOP) * min(1.0, max(0.0, share))

    def _degrees(self) -> Iterator[Tick]:
        for number in range(round((self._ceiling - self._floor) / self._step) + 1):
            degrees = self._floor + number * self._step
            yield Tick(f"{degrees:g}", _unit(self._at(degrees)))

    def _distances(self) -> Iterator[Tick]:
        step = _step(self._heated.reach / _MM)
        for number in range(int(self._heated.reach / _MM / step) + 1):
            yield Tick(f"{number * step:g}", _unit(self._x(number * step * _MM)))

    def _curve(self) -> Iterator[str]:
        """Yield the corners of the board's line, cut off where it leaves the frame at the top."""
        ceiling = self._unit.to_base(self._ceiling)
        for (near, hot), (far, cool) in pairwise(self._heated.board):
            if hot > ceiling > cool:
                yield self._corner(near + (far - near) * (hot - ceiling) / (hot - cool), ceiling)
            elif hot <= ceiling and near == self._heated.board[0][0]:
                yield self._corner(near, hot)
            if cool <= ceiling:
                yield self._corner(far, cool)

    def _corner(self, distance: float, celsius: float) -> str:
        return f"{_unit(self._x(distance))},{_unit(self._y(celsius))}"

    def _bars(self) -> Iterator[HeatBar]:
        free, met = -math.inf, 0
        for number, one in enumerate(self._heated.neighbours, start=1):
            met += one.distance == 0
            exact = self._x(one.distance) if one.distance else self._zero - (_ROOM + _WORD) * (self._meets - met)
            # Two that are about as far stand side by side; the words say how far each is.
            x, way = max(exact, free), _SHORT.get(one.via, "")
            free = x + _ROOM + (_WORD if way else 0)
            limit = None if one.limit is None else self._y(one.limit)
            top, bottom = self._y(one.high), self._y(one.low)
            yield HeatBar(
                str(number), self._name(one.part), self._words(one), "air" if one.via == "air" else "",
                _unit(x), _unit(min(top, bottom - 2)), _unit(bottom), "" if limit is None else _unit(limit),
                _unit(x - _HALF), _unit(x + _HALF), _unit(min(top, top if limit is None else limit) - _ABOVE),
                way, _unit(x + _WORD), _unit(_BOTTOM - _ABOVE),
            )  # fmt: skip

    def _words(self, one: Neighbour) -> str:
        far = f"{math.floor(one.distance / _MM * 10 + _ERROR) / 10:g} mm " if one.distance else ""
        low, high = (self._unit.from_base(end) for end in (one.low, one.high))
        reaches = f"{math.floor(low + _ERROR)}–{math.ceil(high - _ERROR)}"
        if one.bounded or high - low < 1:
            reaches = f"at most {math.ceil(high - _ERROR)}"
        symbol = self._unit.symbol
        kept = "" if one.kept is None else f", kept below {self._unit.from_base(one.kept):g} {symbol} by measuring"
        known = self._device.parts.get(one.part) if self._device else None
        limit = known.heat_limit if known else None
        bears = f"bears {self._limits.bears(limit)}" if limit else "not known what it bears"
        return f"{far}{_WAYS.get(one.via, one.via)}: {reaches} {symbol}{kept}; {bears}"


def _step(span: float) -> float:
    """Return a step of one, two or five, or ten times that, and so on, that divides *span* into a few."""
    size = 1.0
    while span / (10 * size) > _MOST_TICKS:
        size *= 10
    return next(size * times for times in (1, 2, 5, 10) if span / (size * times) <= _MOST_TICKS)


def _cut(text: str) -> str:
    """Return *text* as far as it fits below the axis; the words beside the picture have no end."""
    return text if len(text) <= _LONGEST else f"{text[: _LONGEST - 1]}…"


def _unit(value: float) -> str:
    """Return a place in whole units of the picture: finer is not seen."""
    return str(round(value))
