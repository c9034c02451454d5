"""A whole knowledge base, made up: everything that the schemas allow, written as YAML."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING

from hypothesis import strategies as st

from benchleaf.source.folder import File, Folder, identify
from tests.properties.grown import NAMES, Grower, Schema, Value
from tests.shape.reading import SCHEMAS

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

DOCS = "procedures"
_TOOL_KINDS = {
    "iron": "iron", "hot-air": "hot-air", "mat": "heat-mat", "oven": "oven", "tank": "tank", "plate": "plate",
    "driver": "torque-driver", "meter": "meter", "duster": "air", "wedge": "pry",
}  # fmt: skip
_MATERIAL_KINDS = {"flux": "flux", "wire": "solder", "glue": "adhesive", "isopropanol": "solvent"}
_PART_KINDS = {"battery": "battery", "main-board": "board", "charge-port": "socket", "back-shell": "shell",
               "case-seal": "seal", "window": "window", "chip": "array-package", "flash-cap": "other"}  # fmt: skip
_COUNT: Schema = SCHEMAS.kinds["counts"]["additionalProperties"]["additionalProperties"]["additionalProperties"]
_PROPERTIES = {kind: SCHEMAS.kinds[kind].get("properties", {}) for kind in SCHEMAS.kinds}


def _entry(kind: str, field: str) -> Schema:
    """Return the schema of one entry of the table *field* of a document of *kind*."""
    schema: Schema = _PROPERTIES[kind][field] if field else SCHEMAS.kinds[kind]
    entry: Schema = schema["additionalProperties"]
    return entry


@st.composite
def knowledge_bases(draw: st.DrawFn, *, astray: bool = True, large: bool = True) -> dict[str, Value]:
    """Return the documents of a knowledge base by their paths below the folder of documents."""
    grower = Grower(draw, astray=astray, large=large)
    documents = {
        "shop.yml": grower.table(SCHEMAS.kinds["shop"]),
        "symptoms.yml": _all_of(grower, "symptoms", "", "symptom"),
        "tools.yml": _all_of(grower, "tools", "", "tool", _TOOL_KINDS),
        "materials.yml": _all_of(grower, "materials", "", "shop-material", _MATERIAL_KINDS),
        "devices/wader.yml": _device(grower),
    }
    for name in ("mend", "tin", "make-safe"):
        documents[f"repairs/wader/{name}.yml"] = _settled(grower, _procedure(grower))
    documents["repairs/any/look-on.yml"] = _settled(grower, _procedure(grower, access=None, variants=None))
    documents["diagnosis/wader/no-light.yml"] = diagnosis = grower.table(SCHEMAS.kinds["diagnosis"])
    documents["counts.yml"] = {"wader": {"no-light": _counts(grower, [*diagnosis.get("causes", {}), "gone"])}}
    return documents


def _counts(grower: Grower, causes: list[str]) -> Value:
    """Return what bench records add to *causes*; the last of them the diagnosis does not have."""
    tried: Schema = _COUNT["properties"]["success"]["additionalProperties"]
    kept = causes if grower.astray and grower.seldom(8) else causes[:-1]
    return {
        name: grower.table(_COUNT, success={grower.name("procedure"): grower.grow(tried, "success")})
        for name in kept
        if not grower.seldom(3)
    }


def _device(grower: Grower) -> Value:
    tables = {
        "parts": _all_of(grower, "device", "parts", "part", _PART_KINDS),
        "connectors": _all_of(grower, "device", "connectors", "connector"),
        "fasteners": _all_of(grower, "device", "fasteners", "fastener"),
        "bonds": _all_of(grower, "device", "bonds", "bond"),
        "batteries": _all_of(grower, "device", "batteries", "battery"),
        "variants": _all_of(grower, "device", "variants", "variant"),
        "access": _all_of(grower, "device", "access", "level"),
    }
    return _settled(grower, grower.table(SCHEMAS.kinds["device"], **tables, mains=None))


def _procedure(grower: Grower, **given: Value) -> Value:
    return grower.table(SCHEMAS.kinds["procedure"], device=None, **given)


def _settled(grower: Grower, document: Value) -> Value:
    """Return *document* with each id given once, and with repeats that go back in their own list."""
    taken: set[str] = set()
    for steps in _lists_of_steps(document):
        own: list[str] = []
        for step in steps:
            if step.get("id") in taken:
                del step["id"]
            own += [step["id"]] if "id" in step else []
            taken.update(own)
            way = step.get("check", {}).get("if_not", {})
            if "repeat" in way and own and not (grower.astray and grower.seldom(8)):
                way["repeat"] = grower.one(own)
    return document


def _lists_of_steps(document: Value) -> Iterator[list[Value]]:
    levels = document.get("access", {})
    for table in (document, *(levels.values() if isinstance(levels, dict) else ())):
        for field in ("steps", "prove", "opening", "closing"):
            if field in table:
                yield table[field]


def _all_of(grower: Grower, kind: str, field: str, means: str, kinds: Mapping[str, str] | None = None) -> Value:
    """Return an entry for nearly each thing that a name may mean, of the kind that its name says."""
    found = {}
    for name in NAMES[means]:
        if grower.astray and means != "variant" and grower.seldom(16):
            continue
        given = {"kind": kinds[name]} if kinds and not grower.seldom(8) else {}
        found[name] = grower.table(_entry(kind, field), field or kind, **given)
    return found


OTHERS = frozenset({"index.md", "media/wader-back.svg"})


def folder(documents: Mapping[str, Value | str], others: frozenset[str] = OTHERS) -> Folder:
    """Return *documents* as the files of a folder, each a text or what it shall hold, beside *others*."""
    files = []
    for path, value in sorted(documents.items()):
        kind, device, name = identify(path)
        text = value if isinstance(value, str) else json.dumps(value, ensure_ascii=False, indent=1)
        files.append(File(f"{DOCS}/{path}", kind, device, name, text.encode()))
    return Folder(Path(), DOCS, tuple(files), others)
