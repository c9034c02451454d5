"""Whole files of each kind: those that fit, and those that do not, with carets under what is wrong."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

import pytest

from benchleaf.shape.check import check
from benchleaf.source.nodes import plain
from tests.shape.reading import DOCUMENTS, SCHEMAS, as_marks, document, examples, found, marks, title

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from pathlib import Path

KINDS = sorted(SCHEMAS.kinds)


@pytest.mark.parametrize("path", examples("good-*.yml"), ids=title)
def test_good_file(path: Path) -> None:
    """A file that fits its schema gives no finding."""
    faults = found(path.parent.name, path.read_text("utf-8"))

    assert () == faults


@pytest.mark.parametrize("path", examples("bad-*.yml"), ids=title)
def test_bad_file(path: Path) -> None:
    """Everything that is wrong in a file is found, at the place that the carets mark, and nothing else."""
    text = path.read_text("utf-8")

    faults = found(path.parent.name, text)

    assert marks(text) == as_marks(faults)


@pytest.mark.parametrize("path", examples("bad-*.yml"), ids=title)
def test_bad_file_is_marked(path: Path) -> None:
    """A bad example marks at least one fault: one without carets would pass for nothing."""
    assert marks(path.read_text("utf-8"))


@pytest.mark.parametrize("kind", KINDS)
def test_each_kind_has_examples(kind: str) -> None:
    """Each schema has a file that fits and one that does not."""
    names = {path.name.split("-")[0] for path in examples("*.yml") if path.parent.name == kind}

    assert {"good", "bad"} == names


@pytest.mark.parametrize("kind", KINDS)
def test_every_field_is_exercised(kind: str) -> None:
    """The good files of a kind use every field that its schema knows."""
    files = [path for path in examples("good-*.yml") if path.parent.name == kind]
    used = {name for path in files for name in _used(plain(document(path.read_text("utf-8"))), SCHEMAS.kinds[kind])}

    assert _steps_once(_known(SCHEMAS.kinds[kind])) == _steps_once(used)


def test_every_kind_of_file_has_a_schema() -> None:
    """There is one schema for each kind of file, and one that they share."""
    kinds = ("common", "counts", "device", "diagnosis", "materials", "procedure", "record", "shop", "symptoms", "tools")

    assert [f"{kind}.schema.json" for kind in kinds] == sorted(DOCUMENTS)


def test_faults_stand_in_reading_order() -> None:
    """What is found comes sorted by place."""
    (path,) = (path for path in examples("bad-steps.yml") if path.parent.name == "procedure")
    faults = check(document(path.read_text("utf-8")), "procedure", SCHEMAS)

    assert sorted(fault.place for fault in faults) == [fault.place for fault in faults]


def _steps_once(paths: Iterable[str]) -> set[str]:
    """Return *paths* with all lists of steps as one: a step is the same thing wherever it stands."""
    return {path.replace("/prove/", "/steps/") for path in paths if not re.search("/(opening|closing)/", path)}


def _known(schema: dict[str, Any], path: str = "") -> Iterator[str]:
    """Yield every field that *schema* knows, by its path; names that authors choose are written `*`."""
    for name, below in schema.get("properties", {}).items():
        yield f"{path}/{name}"
        yield from _known(below, f"{path}/{name}")
    for keyword in ("additionalProperties", "items"):
        if isinstance(schema.get(keyword), dict):
            yield from _known(schema[keyword], f"{path}/*")


def _used(value: object, schema: dict[str, Any], path: str = "") -> Iterator[str]:
    """Yield every field that *value* uses, by the same paths."""
    if isinstance(value, dict):
        for name, below in value.items():
            if name in schema.get("properties", {}):
                yield f"{path}/{name}"
                yield from _used(below, schema["properties"][name], f"{path}/{name}")
            else:
                yield from _used(below, schema["additionalProperties"], f"{path}/*")
    elif isinstance(value, list):
        for below in value:
            yield from _used(below, schema["items"], f"{path}/*")
