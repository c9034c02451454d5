"""
Write a search index to standard output, for tests that are no Python.

Its entries come as JSON on standard input; a number there stands for a made-up shop of that many procedures.
"""

from __future__ import annotations

import json
import sys
from typing import Any

from benchleaf.pages.search import SearchEntry, index_script
from tests.search.made_up import entries


def entry_of(fields: dict[str, Any]) -> SearchEntry:  # JSON: each field is of the type that SearchEntry declares
    """Return the entry with these *fields*: JSON knows lists, an entry knows tuples."""
    pairs = {name: tuple(map(tuple, fields.get(name, ()))) for name in ("words", "answers")}
    return SearchEntry(**{**fields, **pairs, "says": tuple(fields.get("says", ()))})


if __name__ == "__main__":
    asked = json.load(sys.stdin)
    sys.stdout.write(index_script(entries(asked) if isinstance(asked, int) else map(entry_of, asked)))
