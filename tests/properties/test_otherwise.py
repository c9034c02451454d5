"""How a knowledge base is written changes nothing: its units, its names, the order of its fields, its remarks."""

from __future__ import annotations

from collections import Counter
from pathlib import Path
from random import Random
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchleaf import build
from benchleaf.source.folder import scan
from benchleaf.source.nodes import plain
from benchleaf.source.read import read
from tests.properties.invented import DOCS, folder, knowledge_bases
from tests.properties.otherwise import (
    PREFIX,
    all_names,
    in_another_order,
    in_other_units,
    under_other_names,
    with_remarks,
)
from tests.properties.profile import HUNT, examples

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from benchleaf.findings import Finding
    from tests.properties.grown import Value

_BASES = knowledge_bases(astray=False, large=False)
_ROOT = Path(__file__).resolve().parent.parent.parent


def found(documents: dict[str, Value]) -> tuple[Finding, ...]:
    """Return what is found in *documents*."""
    return build.check(folder(documents)).findings


def told(findings: Iterable[Finding], *fields: str, line: Callable[[Finding], int] | None = None) -> Counter[Any]:
    """Return *findings* by rule, weight, file, line and variants, and by *fields* besides."""
    where = line or (lambda finding: finding.place.line)
    return Counter(
        (
            finding.rule,
            finding.level,
            finding.place.path,
            where(finding),
            tuple(name.removeprefix(PREFIX) for name in finding.variants),
            finding.allowed,
            *(getattr(finding, field).replace(PREFIX, "") for field in fields),
        )
        for finding in findings
        # Which name is nearest to one that means nothing hangs on its letters.
        if finding.rule != "unknown-reference"
    )


@examples(15)
@given(_BASES, st.randoms(use_true_random=False))
def test_other_units(documents: dict[str, Value], chance: Random) -> None:
    """Quantities of the same worth in other units give the same findings."""
    assert told(found(documents)) == told(found(in_other_units(documents, chance.choice)))


@pytest.mark.parametrize("seed", range(max(2, HUNT)))
def test_demonstration_in_other_units(seed: int) -> None:
    """The demonstration, whose values lie close to limits here and there, is clean in all units."""
    demonstration = scan(_ROOT, DOCS)
    documents = {}
    for file in demonstration.files:
        root = read(file.data, file.path).document
        assert root is not None
        documents[file.path.removeprefix(f"{DOCS}/")] = plain(root)

    turned = in_other_units(documents, Random(seed).choice)  # noqa: S311  (a choice, no secret)
    changed = folder(turned, demonstration.others)

    assert turned != documents
    assert () == tuple(finding for finding in build.check(changed).findings if finding.allowed is None)


@examples(15)
@given(_BASES)
def test_other_names(documents: dict[str, Value]) -> None:
    """Things under other names give the same findings, in the same words but for the names."""
    renamed = under_other_names(documents, all_names())

    assert told(found(documents), "message", "help") == told(found(renamed), "message", "help")


@examples(15)
@given(_BASES, st.data())
def test_another_order(documents: dict[str, Value], data: st.DataObject) -> None:
    """Fields and names in another order give the same findings, though each at its own place."""
    turned = {path: in_another_order(value, data.draw) for path, value in documents.items()}

    assert told(found(documents), line=lambda _: 0) == told(found(turned), line=lambda _: 0)


@examples(15)
@given(_BASES, st.data())
def test_remarks(documents: dict[str, Value], data: st.DataObject) -> None:
    """Remarks between and behind the lines move findings to other lines and change nothing else."""
    texts, lines = {}, {}
    for path, value in documents.items():
        texts[path], lines[f"{DOCS}/{path}"] = with_remarks(value, data.draw)

    with_them = told(
        found(texts), "message", "help", line=lambda finding: lines[finding.place.path][finding.place.line]
    )

    assert told(found(documents), "message", "help") == with_them
