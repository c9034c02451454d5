"""
The patterns that the schemas must hold for quantities: `python -m tests.shape.patterns` writes them in.

The grammar lives in `benchleaf.units`; the schemas repeat it for editors. When it changes, run this and read the diff.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from benchleaf.source.packaged import schema_folder
from benchleaf.units.parse import pattern


def wanted(schema: dict[str, Any]) -> str:
    """Return the pattern of a quantity's *schema*: the grammar, beside the few words allowed there."""
    grammar = pattern(*(schema.get("x-dimensions") or [schema["x-dimension"]]))
    words = "".join(f"{word}|" for word in schema.get("x-words", ()))
    return grammar.replace("^(?:", f"^(?:{words}", 1)


def rewritten(text: str) -> str:
    """Return the schema *text* with the pattern of each quantity as the grammar has it."""
    for schema in _quantities(json.loads(text)):
        text = text.replace(_written(schema["pattern"]), _written(wanted(schema)))
    return text


def _quantities(value: object) -> list[dict[str, Any]]:
    if isinstance(value, list):
        return [schema for item in value for schema in _quantities(item)]
    if not isinstance(value, dict):
        return []
    own = [value] if {"x-dimension", "x-dimensions"} & set(value) and "pattern" in value else []
    return own + [schema for item in value.values() for schema in _quantities(item)]


def _written(text: str) -> str:
    return f'"pattern": {json.dumps(text, ensure_ascii=False)}'


if __name__ == "__main__":
    for path in sorted(Path(schema_folder()).glob("*.schema.json")):
        path.write_text(rewritten(path.read_text("utf-8")), "utf-8")
