"""
Which numbers of a text are surely claims about what its step does, so that the step's field must say the same.

A text also speaks of limits (`must not pass 60 °C`), of what is seen (`until it reads 40 °C`), of other times
(`after 5 s`) and of things (`the 5 V rail`). None of these is a claim. In an instruction a number is one unless a word
says otherwise; in a reason, and in what a check looks for, only where a word ties it to the step's own tool, wait or
pause.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.checks.text.given import tool_of
from benchleaf.checks.text.quantities import found

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from benchleaf.checks.text.given import Given
    from benchleaf.checks.text.quantities import Found
    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.step import Step
    from benchleaf.units.quantity import Quantity

# What stands before a number that is a limit, a reading, another time, or something else's.
_LIMITS = (
    "above", "after", "ago", "at least", "at most", "bears?", "before", "below", "beneath", "between", "beyond", "by",
    "cool(?:s|ed)?(?: down)? to", "down to", "drops?(?: to)?", "each", "every", "exceeds?", "falls?(?: to)?", "first",
    "from", "last", "like", "max(?:imum)?", "min(?:imum)?", "near(?:s|ing)?", "next", "not",
    "over", "past", "per", "rated(?: at| for)?", "reach(?:es)?", "reads?", "rises?(?: to)?", "shows?", "than", "till",
    "towards?", "under", "until", "up to", "warmed to", "within", "withstands?", "without",
)  # fmt: skip
_FILLERS = "(?: (?:the|a|an|about|some|its|all|another|it is|it reads|it shows))*"
_LIMIT = re.compile(rf"\b(?:{'|'.join(_LIMITS)}){_FILLERS}$")
_OF = re.compile(r"\bof$")
_OF_A_SETTING = re.compile(r"\b(?:amount|dose|limit|pause|setting|temperature|time|torque|volume|wait) of$")
_OR_MORE = re.compile(r"^ or (?:above|below|cooler|higher|hotter|less|longer|lower|more|so|under|until|when)\b")
# What may follow a number that stands for itself; any other word makes it the measure of a thing (`the 5 V rail`).
_GOES_ON = frozenset((
    "across", "along", "and", "around", "as", "at", "but", "by", "each", "for", "from", "if", "in", "into", "inside",
    "of", "off", "on", "onto", "or", "over", "round", "so", "then", "through", "to", "under", "until", "using", "when",
    "where", "while", "with", "without",
))  # fmt: skip
_NOUNS = frozenset(("dwell", "pause", "setting", "soak", "torque", "wait"))
# Beside these a reason speaks of what may be or must not be.
_DOUBTS = (
    "above", "already", "at least", "at most", "bears?", "below", "can", "cannot", "could", "even", "exceeds?", "if",
    "less", "limit", "may", "might", "more", "most", "must", "never", "no", "not", "only", "over", "should", "than",
    "under", "unless", "until", "when", "would",
)  # fmt: skip
_DOUBT = re.compile(rf"\b(?:{'|'.join(_DOUBTS)})\b|n't\b")
_SET = re.compile(r"\b(?:at|set to|setting of)$")
_WORD = re.compile(r"^[ -]([^\W\d_]+)")
_CLAUSE = re.compile(r"[.;:,!?]")
_NO_TOOL = frozenset(("hot", "other", "drying", "the", "a"))


@dataclass(frozen=True, slots=True)
class Spoken:
    """A number in a text: what stands before and after it in small letters, and the words of the step's own tool."""

    found: Found
    before: str
    after: str
    tool: frozenset[str]

    @property
    def quantity(self) -> Quantity:
        """The number."""
        return self.found.quantity

    @property
    def word(self) -> str:
        """The word that follows it, or nothing."""
        match = _WORD.match(self.after)
        return match[1] if match else ""

    @property
    def of_tool(self) -> bool:
        """Whether it is said of the step's own tool: `the iron at 350 °C`, `the 350 °C iron`."""
        stands = any(re.search(rf"\b{word}(?:'s| is| set| stands| at| to| has)*$", self.before) for word in self.tool)
        return stands or self.word in self.tool


def claimed(base: KnowledgeBase, step: Step, text: str, numbers: Sequence[Given]) -> Iterator[tuple[Found, Given]]:
    """Yield each number of an instruction that claims what a field gives, with that field."""
    for said in _spoken(base, step, text):
        fields = [field for field in numbers if field.quantity.dimension == said.quantity.dimension]
        if not _is_of_others(said):
            meant = (field for field in fields if _claims(said, field, fields, step))
            yield from ((said.found, field) for field in list(meant)[:1])


def tied(base: KnowledgeBase, step: Step, text: str, numbers: Sequence[Given]) -> Iterator[tuple[Found, Given]]:
    """Yield each number of a reason or a look that a word ties to the step's own tool, wait, pause or torque."""
    for said in _spoken(base, step, text):
        clause = f"{_CLAUSE.split(said.before)[-1]} {_CLAUSE.split(said.after)[0]}"
        if not _DOUBT.search(clause):
            fields = [field for field in numbers if field.quantity.dimension == said.quantity.dimension]
            yield from ((said.found, field) for field in [field for field in fields if _is_tied(said, field)][:1])


def tool_words(base: KnowledgeBase, step: Step) -> frozenset[str]:
    """Return the words by which a text may call the step's own tool."""
    name = tool_of(step) or ""
    tool = base.tools.get(name)
    words = [*name.split("-"), *(tool.kind.split("-") + tool.title.text.lower().split()[-1:] if tool else ())]
    return frozenset(re.escape(word) for word in words if word) - _NO_TOOL


def _spoken(base: KnowledgeBase, step: Step, text: str) -> Iterator[Spoken]:
    numbers = found(text)
    tool = tool_words(base, step) if numbers else frozenset()
    for one in numbers:
        yield Spoken(one, text[: one.start].rstrip().lower(), text[one.end :].lower(), tool)


def _is_of_others(said: Spoken) -> bool:
    """Whether the words around a number surely or perhaps make it a limit, another time, or the measure of a thing."""
    if float("inf") in {-said.quantity.low, said.quantity.high}:
        return True
    if _LIMIT.search(said.before) or _OR_MORE.match(said.after):
        return True
    if _OF.search(said.before) and not _OF_A_SETTING.search(said.before):
        return True
    return bool(said.word) and said.word not in _GOES_ON | _NOUNS | said.tool


def _claims(said: Spoken, field: Given, fields: Sequence[Given], step: Step) -> bool:
    """Whether a number of an instruction surely means what *field* gives."""
    pause = "pause" in {said.word, *said.before.split()[-3:]}
    match field.role:
        case "at" if "iron" in said.tool:
            # A joint is never as hot as the iron: `bring the joint to 240 °C` is about the joint.
            claims = bool(_SET.search(said.before)) or said.of_tool
        case "for" | "pause":
            claims = pause == (field.role == "pause")
        case "amount":
            claims = _is_of(field, said.after)
        case "expect":
            claims = len(fields) == 1 and bool(re.search(r"\b(?:be|is)$", said.before))
        case "takes":
            alone = step.action is None and len(fields) == 1 and said.before.endswith(" for")
            claims = alone and said.quantity.low > field.quantity.high
        case role:
            claims = role in {"at", "area", "speed", "ramp", "torque", "voltage", "current"}
    return claims


def _is_tied(said: Spoken, field: Given) -> bool:
    """Whether a word ties a number to what *field* gives."""
    match field.role:
        case "at":
            return said.of_tool
        case "for":
            return said.word in {"dwell", "soak", "wait"}
        case role:
            return role in {"pause", "torque"} and said.word == role


def _is_of(field: Given, after: str) -> bool:
    """Whether an amount is of the field's own material, where the text says of what it is."""
    match = re.match(r"^ of (?:the )?([^.,;:]*)", after)
    return not match or not set(field.material.split("-")).isdisjoint(re.split(r"[\s-]+", match[1])[:3])
