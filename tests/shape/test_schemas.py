"""The schemas themselves: sound, worded for people, and built so that every error is about one thing."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

import jsonschema
import jsonschema_rs
import pytest

from benchleaf.shape.schemas import walk
from benchleaf.shape.wording import OF_MANY, OF_VALUES
from benchleaf.shape.wording_values import NAME
from benchleaf.units.dimensions import DIMENSIONS, units_that_fit
from tests.shape.patterns import rewritten, wanted
from tests.shape.reading import DOCUMENTS, SCHEMAS, TEXTS

if TYPE_CHECKING:
    from collections.abc import Iterator

Schema = dict[str, Any]

NAMES = sorted(DOCUMENTS)
KINDS = sorted(SCHEMAS.kinds)
SHARED = DOCUMENTS["common.schema.json"]["$defs"]
ANNOTATIONS = {
    "$schema", "$id", "$defs", "$ref", "title", "description", "markdownDescription", "examples", "default", "format",
    "patternErrorMessage", "errorMessage", "markdownEnumDescriptions", "defaultSnippets",
}  # fmt: skip
# These hold other schemas or say when others count; what fails in them is told by a keyword that has words.
STRUCTURE = {"properties", "items", "if", "else"}
# Inside the conditions of `oneOf`, and in a rule on names, whose words stand in the schema.
CONDITIONS = {"not", "anyOf"}


def schemas_in(value: object, where: str = "") -> Iterator[tuple[str, Schema]]:
    """Yield every schema of a document that speaks of a value, with its path; conditions are left out."""
    if not isinstance(value, dict):
        return
    yield where, value
    for group in ("properties", "$defs"):
        for name, below in value.get(group, {}).items():
            yield from schemas_in(below, f"{where}/{group}/{name}")
    for keyword in ("items", "additionalProperties", "propertyNames"):
        yield from schemas_in(value.get(keyword), f"{where}/{keyword}")


EVERY = [(f"{name}#{where}", schema) for name in NAMES for where, schema in schemas_in(DOCUMENTS[name])]
QUANTITIES = [(where, schema) for where, schema in EVERY if "x-dimension" in schema or "x-dimensions" in schema]
FIELDS = [(where, schema) for where, schema in EVERY if where.split("/")[-2:-1] == ["properties"]]


@pytest.mark.outside
@pytest.mark.parametrize("name", NAMES)
def test_metaschema(name: str) -> None:
    """Each schema fits the metaschema of JSON Schema 2020-12, in the eyes of two validators."""
    jsonschema.Draft202012Validator.check_schema(DOCUMENTS[name])
    jsonschema_rs.meta.validate(DOCUMENTS[name])

    assert "https://json-schema.org/draft/2020-12/schema" == DOCUMENTS[name]["$schema"]


@pytest.mark.parametrize("name", NAMES)
def test_id_is_relative(name: str) -> None:
    """Each schema is named by its file alone, so that an editor finds all of them in their folder."""
    assert name == DOCUMENTS[name]["$id"]


def test_references_stay_in_the_folder() -> None:
    """A reference names a definition of its own file or of the shared one, and that definition is there."""
    broken = [
        (where, schema["$ref"])
        for where, schema in EVERY
        if "$ref" in schema and not _is_defined(schema["$ref"], where.split("#")[0])
    ]

    assert [] == broken


def test_fields_are_explained() -> None:
    """Each field has a title, a description for two kinds of editor, and one example."""
    poor = [
        where
        for where, schema in FIELDS
        if not all(schema.get(key) for key in ("title", "description", "markdownDescription"))
        or len(schema.get("examples", ())) != 1
    ]

    assert [] == poor


def test_descriptions_are_sentences() -> None:
    """A description ends as a sentence does."""
    poor = [where for where, schema in EVERY if "description" in schema and not schema["description"].endswith(".")]

    assert [] == poor


def test_examples_fit() -> None:
    """Each example fits the very schema that shows it."""
    unfit = [
        (where, example, error.message)
        for kind in KINDS
        for where, schema in schemas_in(SCHEMAS.kinds[kind], kind)
        for example in schema.get("examples", ())
        for error in jsonschema_rs.Draft202012Validator(schema).iter_errors(example)
    ]

    assert [] == unfit


def test_patterns_are_explained() -> None:
    """Each pattern says in plain words what to write."""
    silent = [where for where, schema in EVERY if "pattern" in schema and "patternErrorMessage" not in schema]

    assert [] == silent


def test_words_are_explained() -> None:
    """Where the words of a choice are explained, each of them is."""
    uneven = [
        where
        for where, schema in EVERY
        if "markdownEnumDescriptions" in schema and len(schema["markdownEnumDescriptions"]) != len(schema["enum"])
    ]

    assert [] == uneven


@pytest.mark.parametrize(("where", "schema"), QUANTITIES, ids=[where for where, _ in QUANTITIES])
def test_quantity_pattern(where: str, schema: Schema) -> None:
    """A quantity's pattern is the grammar that reads it, letter by letter, beside the few words allowed there."""
    assert wanted(schema) == schema["pattern"], f"{where}: `python -m tests.shape.patterns` writes it in"


@pytest.mark.parametrize("name", NAMES)
def test_rewriting(name: str) -> None:
    """Writing the patterns in changes nothing in schemas that hold them."""
    assert TEXTS[name] == rewritten(TEXTS[name])


@pytest.mark.parametrize("dimension", sorted(DIMENSIONS))
def test_units_are_named(dimension: str) -> None:
    """What an editor says of a wrong quantity names all the units that fit."""
    said = SHARED[dimension]["patternErrorMessage"]

    assert [] == [unit for unit in units_that_fit(dimension) if unit not in said]


def test_every_dimension_is_defined() -> None:
    """Each dimension of the format has a definition of its name."""
    assert set(DIMENSIONS) == {name for name in SHARED if SHARED[name].get("x-dimension") == name}


def test_units_that_a_shop_may_show() -> None:
    """A shop may choose among all the units of torque and of temperature."""
    units = SCHEMAS.kinds["shop"]["properties"]["units"]["properties"]

    assert [unit.symbol for unit in DIMENSIONS["torque"]] == units["torque"]["enum"]
    assert [unit.symbol for unit in DIMENSIONS["temperature"]] == units["temperature"]["enum"]


def test_names() -> None:
    """The messages know a name by the pattern that the schemas give it."""
    assert NAME == SHARED["id"]["pattern"]


def test_no_structure_in_choices() -> None:
    """Choices are between bare field names: an error in a step is never 'fits none of these'."""
    mixed = [
        where
        for where, schema in EVERY
        for choice in schema.get("oneOf", ())
        if not (set(choice) == {"required"} or _is_none_of(choice))
    ]
    others = [where for where, schema in EVERY if {"anyOf", "allOf", "then"} & set(schema)]

    assert ([], []) == (mixed, others)


def test_choices_are_named() -> None:
    """Each choice is told once for validators and once for messages, and the two agree."""
    told = [
        (schema.get("x-exactly-one") or schema["x-at-most-one"], schema["oneOf"])
        for _, schema in EVERY
        if "oneOf" in schema
    ]

    assert [names for names, _ in told] == [
        [choice["required"][0] for choice in choices if "required" in choice] for _, choices in told
    ]


def test_every_table_is_closed() -> None:
    """A table either lists its fields and takes no other, or says what each of its entries is."""
    open_ = [
        where
        for where, schema in EVERY
        if "object" in schema.get("type", ()) and schema.get("additionalProperties") in (None, True)
    ]

    assert [] == open_


def test_annotations_beside_references() -> None:
    """Beside a reference stand words only, so that what is referred to says alone what fits."""
    ruling = [
        where
        for where, schema in EVERY
        if "$ref" in schema and not where.endswith("/$defs/level-id")
        for key in schema
        if key not in ANNOTATIONS and not key.startswith("x-")
    ]

    assert [] == ruling


def test_every_keyword_has_words() -> None:
    """Each keyword that can fail has words for the author."""
    used = {key for _, schema in EVERY for key in schema if not key.startswith("x-")} - ANNOTATIONS
    worded = {*OF_VALUES, *OF_MANY, *STRUCTURE, *CONDITIONS}

    assert set() == used - worded
    assert set() == {*OF_VALUES, *OF_MANY} - used


@pytest.mark.parametrize(
    ("where", "label"),
    [
        ("common.schema.json#/$defs/step", "step"),
        ("common.schema.json#/$defs/steps", "new step"),
        ("device.schema.json#/$defs/part", "part"),
        ("device.schema.json#/$defs/fastener", "fastener"),
        ("device.schema.json#/$defs/level", "level"),
        ("diagnosis.schema.json#/$defs/test", "test"),
    ],
)
def test_snippets(where: str, label: str) -> None:
    """What authors write most often is offered ready to fill in."""
    labels = [snippet["label"] for snippet in dict(EVERY)[where]["defaultSnippets"]]

    assert label in labels


def test_walk_follows_a_document() -> None:
    """A path of a document leads to the part of the schema that speaks of its value."""
    schema = walk(SCHEMAS.kinds["procedure"], ("steps", 3, "solder", "at"))

    assert schema is not None
    assert "temperature" == schema["x-dimension"]
    assert "Setting" == schema["title"]


def test_walk_beyond_the_schema() -> None:
    """A path that the schema does not know leads nowhere, and is no error."""
    assert walk(SCHEMAS.kinds["procedure"], ("steps", 3, "colour", "shade")) is None


def _is_defined(reference: str, file: str) -> bool:
    match = re.fullmatch(r"(|common\.schema\.json)#/\$defs/([a-z-]+)", reference)
    return match is not None and match[2] in DOCUMENTS[match[1] or file].get("$defs", {})


def _is_none_of(choice: Schema) -> bool:
    return set(choice) == {"not"} and all(set(below) == {"required"} for below in choice["not"]["anyOf"])
