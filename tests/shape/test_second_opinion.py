"""Two validators, of which one is ours in use, read the schemas alike."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import jsonschema
import pytest
from hypothesis import given, settings
from referencing import Registry, Resource

from benchleaf.shape.paths import for_validator, own_pointer
from benchleaf.shape.wording import keyword_of
from benchleaf.source.folder import identify
from tests.shape.reading import DOCUMENTS, PROCEDURES, SCHEMAS, document, examples, title
from tests.shape.strange import KINDS, as_yaml, strange

if TYPE_CHECKING:
    from pathlib import Path

    from benchleaf.shape.schemas import Pointer

pytestmark = pytest.mark.outside

REGISTRY: Registry[Any] = Registry().with_resources(
    (name, Resource.from_contents(contents)) for name, contents in DOCUMENTS.items()
)
SECOND = {kind: jsonschema.Draft202012Validator(DOCUMENTS[f"{kind}.schema.json"], registry=REGISTRY) for kind in KINDS}
DEMONSTRATION = sorted(PROCEDURES.rglob("*.yml"))


def first_opinion(kind: str, value: Any) -> set[tuple[Pointer, str]]:  # noqa: ANN401  (any JSON)
    """Return where and in which keyword *value* fails its schema, as our validator sees it."""
    return {(own_pointer(error.instance_path), keyword_of(error)) for error in SCHEMAS.errors(kind, value)}


def second_opinion(kind: str, value: Any) -> set[tuple[Pointer, str]]:  # noqa: ANN401  (any JSON)
    """Return the same as the other validator sees it, which names the rule inside `propertyNames`."""
    return {
        (
            own_pointer(error.absolute_path),
            "propertyNames" if "propertyNames" in error.schema_path else str(error.validator),
        )
        for error in SECOND[kind].iter_errors(value)
    }


@pytest.mark.parametrize("file", examples("*.yml"), ids=title)
def test_examples(file: Path) -> None:
    """Both validators say the same of each example file."""
    kind, value = file.parent.name, for_validator(document(file.read_text("utf-8")))

    assert second_opinion(kind, value) == first_opinion(kind, value)


@pytest.mark.parametrize("file", DEMONSTRATION, ids=lambda file: file.relative_to(PROCEDURES).as_posix())
def test_demonstration(file: Path) -> None:
    """Both validators find nothing in any file of the demonstration."""
    kind, _, _ = identify(file.relative_to(PROCEDURES).as_posix())
    value = for_validator(document(file.read_text("utf-8")))

    assert (set(), set()) == (first_opinion(kind, value), second_opinion(kind, value))


@settings(deadline=None, max_examples=200)
@given(strange())
def test_strange_documents(made: tuple[str, Any]) -> None:
    """Both validators say the same of documents with something dropped, added or changed."""
    kind, made_so = made
    value = for_validator(document(as_yaml(made_so)))

    assert second_opinion(kind, value) == first_opinion(kind, value)
