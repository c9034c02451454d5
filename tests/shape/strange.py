"""Strange documents: good ones with something dropped, added or changed, and the YAML that writes them."""

from __future__ import annotations

import json
from copy import deepcopy
from typing import Any

from hypothesis import strategies as st

from benchleaf.source.nodes import plain
from tests.shape.reading import SCHEMAS, document, examples

Value = Any  # What stands in a document, as a schema validator reads it: any JSON.

KINDS = sorted(SCHEMAS.kinds)
GOOD: dict[str, list[Value]] = {
    kind: [plain(document(path.read_text("utf-8"))) for path in examples("good-*.yml") if path.parent.name == kind]
    for kind in KINDS
}
# Control characters are another stage's finding, and readers of patterns differ on which of them are blank.
_TEXTS = st.text(st.characters(codec="utf-8", exclude_categories=("C", "Z")), max_size=8)
_ODD_TEXTS = st.sampled_from(
    ["", " ", "no", "on", "off", "1:30", "010", "60", "60 °C", "5–10 s", "10–5 s", "7 cN·m", "hand", "A b", "closed"]
)
_NUMBERS = st.integers(-10, 10**17) | st.floats(-1e6, 1e6).map(lambda value: round(value, 3))
_SCALARS = st.none() | st.booleans() | _NUMBERS | _TEXTS | _ODD_TEXTS
_KEYS = _TEXTS | st.sampled_from(
    ["title", "do", "check", "if_not", "only", "steps", "kind", "closed", "Bad Name", "a/b", "~1", "", "0", "00", "+5"]
)
_ANYTHING = st.recursive(
    _SCALARS, lambda below: st.lists(below, max_size=3) | st.dictionaries(_KEYS, below, max_size=3), max_leaves=6
)


@st.composite
def strange(draw: st.DrawFn) -> tuple[str, Value]:
    """Return a kind and a document of that kind with one to four things wrong in it, or right by chance."""
    kind = draw(st.sampled_from(KINDS))
    value = deepcopy(draw(st.sampled_from(GOOD[kind])))
    for _ in range(draw(st.integers(1, 4))):
        _change(draw, value)
    return kind, value


def as_yaml(value: Value) -> str:
    """Return *value* as YAML between braces: texts in quotes, all else as it is."""
    return json.dumps(value, ensure_ascii=False)


def _change(draw: st.DrawFn, value: Value) -> None:
    """Drop, add or change something in *value*, at a place that is drawn."""
    below: Value = value
    while True:
        keys = list(below) if isinstance(below, dict) else list(range(len(below)))
        inside = [key for key in keys if isinstance(below[key], dict | list) and below[key]]
        if not inside or draw(st.integers(0, 3)) == 0:
            break
        below = below[draw(st.sampled_from(inside))]
    act = draw(st.sampled_from(["drop", "add", "change"])) if keys else "add"
    if act == "drop":
        del below[draw(st.sampled_from(keys))]
    elif act == "change":
        below[draw(st.sampled_from(keys))] = draw(_ANYTHING)
    elif isinstance(below, dict):
        below[draw(_KEYS)] = draw(_ANYTHING)
    else:
        below.append(draw(_ANYTHING))
