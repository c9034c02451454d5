"""The blocks of the format's own page, each a file of its own here, stand whole in the files of the demonstration."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml

BLOCKS = Path(__file__).parent / "format_blocks"
DEMONSTRATION = Path(__file__).parents[1] / "procedures"
NAMES = sorted(block.name for block in BLOCKS.glob("*.yml"))

Told = str | list["Told"] | dict[str, "Told"]


@pytest.mark.parametrize("name", NAMES)
def test_block_stands_in_its_file(name: str) -> None:
    """What a block of the format shows is in the file that it is taken from, with the same keys, values and order."""
    block, whole = _read(BLOCKS / name), _read(DEMONSTRATION / name.replace("__", "/"))

    assert [] == missing(block, whole)


def test_every_kind_of_file_has_a_block() -> None:
    """The seven kinds of file that the format shows are all among the blocks."""
    kinds = {name.removesuffix(".yml").split("__")[0] for name in NAMES}

    assert {"shop", "symptoms", "tools", "materials", "devices", "repairs", "diagnosis"} == kinds


def test_a_changed_value_is_missing() -> None:
    """A value that differs is named with its way from the top of the file."""
    part: Told = {"steps": [{"do": "Look.", "use": ["microscope"]}]}
    whole: Told = {"steps": [{"do": "Look.", "use": ["iron"]}]}

    assert ["steps.0: no such item, in this order"] == missing(part, whole)


def test_items_in_another_order_are_missing() -> None:
    """Items that have changed places are not found."""
    whole: Told = ["a", "b", "c"]

    assert ["1: no such item, in this order"] == missing(["c", "a"], whole)


def test_items_between_ours_are_no_fault() -> None:
    """A list may hold further items before, between and after those of the block."""
    whole: Told = ["a", "b", "c", "d"]

    assert [] == missing(["b", "d"], whole)


def missing(part: Told, whole: Told, way: str = "") -> list[str]:
    """Return what of *part* is not in *whole*: tables may hold more keys, lists more items between ours."""
    if isinstance(part, dict) and isinstance(whole, dict):
        return [
            fault
            for key, value in part.items()
            for fault in (missing(value, whole[key], f"{way}{key}.") if key in whole else [f"{way}{key}: not there"])
        ]
    if isinstance(part, list) and isinstance(whole, list):
        return _missing_items(part, whole, way)
    return [] if part == whole else [f"{way[:-1]}: {whole!r} instead of {part!r}"]


def _missing_items(part: list[Told], whole: list[Told], way: str) -> list[str]:
    faults, rest = [], iter(whole)
    for place, item in enumerate(part):
        if not any(missing(item, other) == [] for other in rest):
            faults.append(f"{way}{place}: no such item, in this order")
    return faults


def _read(path: Path) -> Told:
    node = yaml.compose(path.read_text(encoding="utf-8"))
    assert node is not None, f"{path.name} is empty"
    return _told(node)


def _told(node: yaml.Node) -> Told:
    match node:
        case yaml.MappingNode():
            return {key.value: _told(value) for key, value in node.value}
        case yaml.SequenceNode():
            return [_told(item) for item in node.value]
        case _:
            return str(node.value)
