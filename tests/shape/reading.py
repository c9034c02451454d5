"""What the tests of this folder share: the compiled schemas, the example files, and a document in one line."""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from benchleaf.shape.check import check
from benchleaf.shape.schemas import load
from benchleaf.source.packaged import schemas as texts
from benchleaf.source.read import read

if TYPE_CHECKING:
    from benchleaf.findings import Fault
    from benchleaf.source.nodes import Table

EXAMPLES = Path(__file__).parent / "examples"
PROCEDURES = Path(__file__).resolve().parent.parent.parent / "procedures"
TEXTS = texts()
DOCUMENTS: dict[str, dict[str, Any]] = {name: json.loads(text) for name, text in TEXTS.items()}
SCHEMAS = load(TEXTS)
_CARETS = re.compile(r"#( *)(\^*) ([a-z-]+)")


@dataclass(frozen=True, order=True)
class Mark:
    """A fault as an example file marks it: where it stands, and its rule."""

    line: int
    column: int
    end: int
    rule: str


def document(text: str, path: str = "example.yml") -> Table:
    """Return the document that *text* writes, which must be readable."""
    result = read(text.encode(), path)
    assert result.document is not None, result.faults
    return result.document


def found(kind: str, text: str) -> tuple[Fault, ...]:
    """Return what is wrong with *text* as a file of *kind*."""
    return check(document(text), kind, SCHEMAS)


def one(kind: str, text: str) -> Fault:
    """Return the only thing that is wrong with *text* as a file of *kind*."""
    (fault,) = found(kind, text)
    return fault


def marks(text: str) -> list[Mark]:
    """Return the faults that carets mark in *text*: `#   ^^^ rule`, below the line meant."""
    marked = []
    line = 0
    for number, written in enumerate(text.split("\n"), start=1):
        match = _CARETS.fullmatch(written)
        if match is None:
            line = number
        else:
            # Where the value begins in the first column, the sign of the remark itself stands for the first caret.
            column = 1 if not match[1] else len(match[1]) + 2
            end = 1 + len(match[2]) + 1 if not match[1] else column + len(match[2])
            marked.append(Mark(line, column, end, match[3]))
    return sorted(marked)


def as_marks(faults: tuple[Fault, ...]) -> list[Mark]:
    """Return *faults* as an example file would mark them."""
    return sorted(Mark(fault.place.line, fault.place.column, fault.place.end, fault.rule) for fault in faults)


def examples(pattern: str) -> list[Path]:
    """Return the example files whose names match, in a fixed order."""
    return sorted(EXAMPLES.glob(f"*/{pattern}"))


def title(path: Path) -> str:
    """Return what a test of the file at *path* is called."""
    return f"{path.parent.name}/{path.stem}"
