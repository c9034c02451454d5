"""The state board in words: one value for each line, and small print below it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, TypeAlias

from benchleaf.pages.compose import margins
from benchleaf.pages.compose.wording import held
from benchleaf.units import show

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from benchleaf.derive.board import Board, Lying, Neighbour, Warm
    from benchleaf.model.device import Device

Line: TypeAlias = "tuple[str, str]"
"""A value and its small print."""

LINES = {
    "battery": "Battery", "power": "Power", "tray": "Tray", "wet": "Liquid", "hot": "Heat", "air": "Bench air",
}  # fmt: skip
"""The lines of the board in their order, each with its label."""

_HURT = {
    "swollen": "swollen: do not press, bend or warm it", "wet": "has met liquid: not to be used again",
    "too hot": "was too hot: not to be used again", "not looked at": "nobody has looked at its shape yet",
    "set aside": "set aside: not to be used again",
}  # fmt: skip
_LITTLE = 0.01  # Less than this share of a limit is called clear.


class BoardWords:
    """Words the boards of one device, in the shop's units."""

    def __init__(self, device: Device | None, letters: Mapping[str, str], temperature: str) -> None:
        """Hold what all boards share."""
        self._device, self._letters, self._temperature = device, letters, temperature
        self._said: dict[Board, dict[str, Line]] = {}

    def lines(self, board: Board) -> dict[str, Line]:
        """Return each line of *board*: a value, and small print or ""; most boards are met more than once."""
        if board not in self._said:
            self._said[board] = self._lines(board)
        return self._said[board]

    def sentence(self, board: Board) -> str:
        """Return all of *board* in one line of words."""
        told = (f"{LINES[line]}: {value}, {small}" if small else f"{LINES[line]}: {value}"
                for line, (value, small) in self.lines(board).items())  # fmt: skip
        return f"{'. '.join(told)}."

    def _lines(self, board: Board) -> dict[str, Line]:
        return {
            "battery": self._battery(board),
            "power": self._power(board),
            "tray": _tray(board),
            "wet": self._wet(board),
            "hot": self._hot(board),
            "air": _air(board.air),
        }

    def lying(self, screws: Iterable[tuple[str, int]], parts: Iterable[str]) -> list[tuple[str, int]]:
        """Return what lies beside the device, by kind and length: screws first, then parts."""
        return [(self.screw(name), count) for name, count in screws] + [(self.part(name), 1) for name in parts]

    def screw(self, name: str) -> str:
        """Return what a screw is known by at the bench: item letter, drive, thread and length."""
        known = self._device.fasteners.get(name) if self._device else None
        if known is None:
            return name
        length = show.tidy(known.length.text) if known.length else ""
        size = " × ".join(part for part in (known.thread, length) if part)
        kind = " ".join(part for part in (known.drive, size) if part) or known.title.text
        return f"{self._letters[name]}: {kind}" if name in self._letters else kind

    def part(self, name: str) -> str:
        """Return the title of a part, a bond or a connector."""
        if self._device is None or not name:
            return name or "the bench"
        known = self._device.parts.get(name) or self._device.bonds.get(name)
        return known.title.text if known else name

    def _battery(self, board: Board) -> Line:
        if not board.packs:
            return ("none", "")
        hurt = [_HURT.get(reason, reason) for _, _, reason in board.packs if reason]
        joined = [part for part, is_joined, _ in board.packs if is_joined]
        if len(board.packs) == 1 or len(joined) in {0, len(board.packs)}:
            value = "joined" if joined else "isolated"
        else:
            value = f"{len(board.packs) - len(joined)} of {len(board.packs)} isolated"
            hurt.insert(0, f"joined: {_named([self.part(part) for part in joined])}")
        return (value, "; ".join(dict.fromkeys(hurt)))

    def _power(self, board: Board) -> Line:
        value = {"on": "on", "fed": "fed from outside", "off": "off"}[board.power]
        charged = _named([self.part(name) for name in board.charged])
        return (value, f"{charged} may hold charge" if charged else "")

    def _wet(self, board: Board) -> Line:
        sets = [f"{self.part(name)} sets: {held(show.at_most(left))} to go" for name, left in board.setting]
        if not board.wet:
            return ("dry", "; ".join(sets))
        where = [one for one in board.wet if one.part]
        value = f"{_few([self.part(one.part) for one in where])} wet" if where else "vapour that burns"
        return (value, "; ".join([_until_dry(board.wet), *sets]))

    def _hot(self, board: Board) -> Line:
        beside = [self._beside(board.beside)] if board.beside else []
        if not board.hot:
            return ("cool", "; ".join(beside))
        return (f"{_few([self.part(one.part) for one in board.hot])} hot", "; ".join([_until_cool(board.hot), *beside]))

    def _beside(self, one: Neighbour) -> str:
        most = margins.temperature(one.reached, self._temperature, math.ceil)
        if one.limit is None:
            return f"{self.part(one.part)} up to {most}, nobody says what it bears"
        return f"{self.part(one.part)} up to {most} of {margins.temperature(one.limit, self._temperature, math.floor)}"


def _tray(board: Board) -> Line:
    screws, parts = sum(count for _, count in board.screws), len(board.parts)
    told = [f"{screws} screw{'' if screws == 1 else 's'}"] if screws else []
    told += [f"{parts} part{'' if parts == 1 else 's'}"] if parts else []
    return (", ".join(told) or "empty", "")


def _until_dry(lying: tuple[Lying, ...]) -> str:
    longest = max(one.seconds for one in lying)
    burns = "burns; " if any(one.burns for one in lying) else ""
    if not math.isfinite(longest):
        return f"{burns}nobody can say when it is dry"
    return f"{burns}left alone, dry in {held(show.at_most(longest))} at the most"


def _until_cool(warm: tuple[Warm, ...]) -> str:
    cool, hand = max(one.cool for one in warm), max(one.hand for one in warm)
    if not math.isfinite(cool):
        return "nobody can say when it is cool"
    keep = f"no hand on it for {held(show.at_most(hand))}; " if hand else ""
    return f"{keep}cool in {held(show.at_most(cool))} at the most"


def _air(share: float) -> Line:
    if share < _LITTLE:
        return ("clear", "")
    return (f"{show.digits(share * 100, 2, math.ceil)} % of the limit".replace(" ", "\N{NO-BREAK SPACE}", 1), "falling")


def _few(names: list[str]) -> str:
    return names[0] if len(names) == 1 else f"{len(names)} parts"


def _named(names: list[str]) -> str:
    return ", ".join(names[:-1]) + f" and {names[-1]}" if len(names) > 1 else "".join(names)
