"""Documents that grow out of a schema: whatever it allows, with names that mostly mean something."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING, Any, TypeVar, cast

from hypothesis import strategies as st

from benchleaf.checks.rules import RULES
from tests.properties.quantities import usual, within, written

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

T = TypeVar("T")
Schema = dict[str, Any]
Value = Any  # JSON, as it stands in a document

PARTS = ["battery", "main-board", "charge-port", "back-shell", "case-seal", "window", "chip", "flash-cap"]
CONNECTORS = ["battery-plug", "lamp-plug", "spare-plug"]
SUBSTANCES = ["isopropanol", "acetone", "n-heptane", "d-limonene", "deionised-water", "ethanol", "ethyl-acetate"]
NAMES: Mapping[str, Sequence[str]] = {
    "part": PARTS,
    "connector": CONNECTORS,
    "socket": [*PARTS, *CONNECTORS],
    "fastener": ["case-screw", "long-screw"],
    "bond": ["window-bond", "pad-bond"],
    "battery": ["pack", "spare"],
    "level": ["open", "bare", "drawer"],
    "access": ["open", "bare", "drawer", "closed"],
    "variant": ["v1", "v2"],
    "tool": ["iron", "hot-air", "mat", "oven", "tank", "driver", "meter", "duster", "plate", "wedge"],
    "material": [*SUBSTANCES, "flux", "wire", "glue"],
    "substance": SUBSTANCES,
    "shop-material": ["flux", "wire", "glue", "isopropanol"],
    "alloy": ["sac305", "sn42bi58", "sn63pb37"],
    "solid": ["polycarbonate", "brass", "pmma", "glass", "plastic", "aluminium", "steel"],
    "procedure": ["mend", "tin", "make-safe", "look-on"],
    "symptom": ["no-light", "no-charge"],
    "function": ["light", "sound"],
    "step": ["one", "two", "three", "four", "five", "six", "steps-1"],
    "rule": sorted(RULES),
    "device": ["wader"],
    "cause": ["corroded", "worn"],
    "test": ["current", "look"],
    "outcome": ["none", "some"],
}
# What a field, or the keys of a table in a field, name.
MEANS = {
    "part": "part", "on": "part", "remove": "part", "fit": "part", "replace": "part", "discharge": "part",
    "part_of": "part", "without": "part", "needs": "part", "seals": "part", "parts": "part", "near": "part",
    "plug": "connector", "unplug": "connector", "connectors": "connector", "into": "socket",
    "unscrew": "fastener", "screw": "fastener", "fasteners": "fastener", "at": "fastener",
    "bond": "bond", "bonds": "bond", "batteries": "battery", "access": "access", "from": "access",
    "only": "variant", "variants": "variant", "paired": "variant", "tool": "tool", "tools": "tool", "use": "tool",
    "with": "tool", "material": "material", "materials": "material", "apply": "material", "contains": "substance",
    "alloy": "alloy", "solder": "alloy", "made_of": "solid", "go_to": "procedure", "procedure": "procedure",
    "fixes": "symptom", "gone": "symptom", "serves": "function", "repeat": "step", "id": "step", "rule": "rule",
    "device": "device", "causes": "cause", "given": "cause", "tests": "test", "outcomes": "outcome",
}  # fmt: skip
# ... where the table around it decides.
_SAYS = {("bond", "with"): "material", ("fasteners", "into"): "made_of"}
TEXTS = ["Look on.", "Wipe it with 2 mL for 3 min.", "x", "Tighten a little.", "Remove the old part and fit the new."]
_WORDS = {"thread": ["M1.6", "M2", "M2x0.25", "ST2.2", "x"], "drive": ["T4", "PH00", "x"],
          "grade": ["8.8", "A2-70", "x"], "keeps_out": ["IP67"], "picture": ["media/wader-back.svg", "x"],
          "notes": ["Keep the *old* seal."], "about": ["A lamp."]}  # fmt: skip
_INTEGERS = [1, 1, 1, 2, 3, 8]
_LARGE = [100, 10**6, 10**15]
_SELDOM = 12


class Grower:
    """Grows values out of schemas."""

    def __init__(self, draw: st.DrawFn, *, astray: bool = True, large: bool = True) -> None:
        """Take what draws; *astray* lets some names mean nothing, *large* some numbers be beyond all use."""
        self.draw, self.astray, self.large = draw, astray, large

    def grow(self, schema: Schema, field: str = "") -> Value:
        """Return a value that fits *schema*, which stands in *field*."""
        words = [schema["const"]] if "const" in schema else schema.get("enum")
        if words:
            return self.one(words)
        kinds = schema.get("type", "string")
        grown: dict[str, Callable[[], Value]] = {
            "object": lambda: self.table(schema, field),
            "array": lambda: self._list(schema, field),
            "boolean": lambda: self.draw(st.booleans()),
            "integer": lambda: self._integer(schema),
            "number": lambda: self.one((schema.get("minimum", 0), schema.get("maximum", 76.5), 0.5)),
            "string": lambda: self._text(schema, field),
        }
        return grown[self.one(kinds) if isinstance(kinds, list) else kinds]()

    def _text(self, schema: Schema, field: str) -> str:
        words = tuple(schema.get("x-words", ()))
        dimensions = schema.get("x-dimensions") or ([schema["x-dimension"]] if "x-dimension" in schema else [])
        if words and (not dimensions or self.seldom(3)):
            return str(self.one(words))
        if dimensions:
            return self.quantity(str(self.one(dimensions)), schema)
        if schema.get("format") == "date":
            return "2026-09-14"
        if " of " in schema.get("pattern", ""):
            return str(self.one(("0 of 0", "9 of 14", "999999 of 999999", "3 of 2")))
        if "a-z0-9" in schema.get("pattern", ""):
            return self.name(field)
        return str(self.one(_WORDS.get(field, TEXTS)))

    def quantity(self, dimension: str, schema: Schema) -> str:
        """Return a quantity of *dimension* with the ends that *schema* wants."""
        ends = schema.get("x-ends", "both")
        if "x-between" in schema:
            least, most = map(str, schema["x-between"])
            return self.one([least, most, *within(dimension, least, most)])
        return self.draw(_written(dimension, ends) if self.large else _usual(dimension))

    def name(self, field: str) -> str:
        """Return a name that *field* may give; now and then one that means nothing."""
        if self.astray and self.seldom(_SELDOM):
            return self.one(("nothing", "battery", "iron", "mend"))
        return str(self.one(NAMES[MEANS.get(field, "part")]))

    def _integer(self, schema: Schema) -> int:
        least, most = int(schema.get("minimum", 0)), schema.get("maximum")
        large = self.large and most is None and self.seldom(_SELDOM)
        value = self.one(_LARGE if large else _INTEGERS)
        return max(least, value if most is None else min(value, int(most)))

    def _list(self, schema: Schema, field: str) -> list[Value]:
        least = schema.get("minItems", 0)
        usual = least + (5 if field in {"steps", "prove"} else 3)
        count = self.draw(_integers(least, min(schema.get("maxItems", usual), usual)))
        found = [self.grow(schema["items"], field) for _ in range(count)]
        if schema.get("uniqueItems"):
            found = list(dict.fromkeys(found))
        return found

    def table(self, schema: Schema, field: str = "", **given: Value) -> dict[str, Value]:
        """Return a table that fits *schema*, which stands in *field*, with the fields *given*; None leaves one out."""
        properties: dict[str, Schema] = schema.get("properties", {})
        if not properties and isinstance(schema.get("additionalProperties"), dict):
            return self._entries(schema, field)
        chosen = self._chosen(schema, given)
        table = {
            name: given[name] if name in given else self.grow(properties[name], _SAYS.get((field, name), name))
            for name in properties
            if name in chosen and given.get(name, "") is not None
        }
        self._relative(properties, table)
        return table

    def _chosen(self, schema: Schema, given: Mapping[str, Value]) -> dict[str, None]:
        """Return the fields that a table of *schema* shall have."""
        properties: dict[str, Schema] = schema["properties"]
        chosen = dict.fromkeys([*schema.get("required", ()), *given])
        exclusive = [name for word in ("x-exactly-one", "x-at-most-one") for name in schema.get(word, ())]
        if exclusive and not chosen.keys() & set(exclusive) and ("x-exactly-one" in schema or not self.seldom(8)):
            chosen[self.one(exclusive)] = None
        free = [name for name in properties if name not in chosen and name not in exclusive]
        chosen.update(dict.fromkeys(self._some(free)))
        needed = schema.get("dependentRequired", {})
        for name in list(chosen):
            for other in needed.get(name, ()):
                if other in exclusive and other not in chosen:
                    chosen.pop(name, None)
                else:
                    chosen[other] = None
        chosen.update(dict.fromkeys(schema.get("else", {}).get("required", ())))
        if not chosen and schema.get("minProperties"):
            chosen[self.one(list(properties))] = None
        return chosen

    def _relative(self, properties: Mapping[str, Schema], table: dict[str, Value]) -> None:
        """Give each quantity the dimension that another field of its table asks for."""
        for name in table:
            for field, words in properties[name].get("x-dimension-by", {}).items():
                if table.get(field) in words:
                    table[name] = self.quantity(words[table[field]], properties[name])

    def _entries(self, schema: Schema, field: str) -> dict[str, Value]:
        least = max(schema.get("minProperties", 0), 1)
        count = self.draw(_integers(least, min(schema.get("maxProperties", 4), 4)))
        names = ["A", "B", "C 3", "x"][:count] if field == "holes" else [self.name(field) for _ in range(count)]
        return {name: self.grow(schema["additionalProperties"], field) for name in names}

    def _some(self, names: Sequence[str]) -> list[str]:
        """Return about a third of *names*."""
        if not names:
            return []
        bits = self.draw(_integers(0, 2 ** len(names) - 1)) & self.draw(_integers(0, 2 ** len(names) - 1))
        return [name for number, name in enumerate(names) if bits >> number & 1]

    def one(self, of: Sequence[T]) -> T:
        """Return one of *of*."""
        return cast("T", self.draw(_sampled(tuple(of))))

    def seldom(self, one_in: int) -> bool:
        """Whether it is one of the few times: one in *one_in*."""
        return self.draw(_integers(0, one_in - 1)) == one_in - 1


@cache
def _sampled(of: tuple[Any, ...]) -> st.SearchStrategy[Any]:
    return st.sampled_from(of)


@cache
def _integers(low: int, high: int) -> st.SearchStrategy[int]:
    return st.integers(low, high)


@cache
def _written(dimension: str, ends: str) -> st.SearchStrategy[str]:
    return written(dimension, ends)


@cache
def _usual(dimension: str) -> st.SearchStrategy[str]:
    return usual(dimension)
