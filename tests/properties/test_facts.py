"""Facts of whatever the schemas accept: told in both forms, in the promised shape, each number inside its range."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import jsonschema
from hypothesis import given

from benchleaf import build
from benchleaf.report import FACTS
from tests.properties.invented import folder, knowledge_bases
from tests.properties.profile import examples
from tests.report.test_facts import SCHEMA, numbers

if TYPE_CHECKING:
    from tests.properties.grown import Value

VALIDATOR = jsonschema.Draft202012Validator(SCHEMA)


@examples(30)
@given(knowledge_bases())
def test_facts_of_anything(documents: dict[str, Value]) -> None:
    """Facts of any procedure that fits the schemas are told without an exception, whatever is wrong with it."""
    checked = build.check(folder(documents), pages=False)

    for procedure in checked.base.procedures.values():
        facts = build.facts_of(checked, procedure)
        if facts is None:
            continue
        whole = json.loads(FACTS["json"](facts))
        assert FACTS["text"](facts)
        assert [] == [error.message for error in VALIDATOR.iter_errors(whole)]
        assert [] == [one for one in numbers(whole) if not _inside(one)]


def _inside(one: dict[str, float | None]) -> bool:
    value, low, high = one["value"], one["low"], one["high"]
    return value is None or ((low is None or low <= value) and (high is None or value <= high))
