"""
What an instruction tells one to do: its acts, and whether it begins with one.

No model of the language: closed lists, and the signs between clauses. Where the words leave it open nothing is said;
what that costs is measured on the sentences of `tests/checks/instructions.yml`.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from typing import TYPE_CHECKING

from benchleaf.checks.text import verbs
from benchleaf.checks.text.sentences import sentences, unquoted

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator

_TOKEN = re.compile(r"[^\W\d_]+(?:[-'’][^\W\d_]+)*|\d[\w.]*|[,;:]|[–—]| - |&")
_SIGNS = frozenset(",;:–—&-")
_BETWEEN = (" and ", " then ", ", ", "; ", ": ", ". ", "! ", "? ", " & ", " - ", "–", "—")
_AWAY = frozenset(("aside", "away", "by", "down", "back", "in", "on", "into", "onto", "to"))


@dataclass(frozen=True, slots=True)
class Act:
    """A verb of an instruction, as it stands there, and where it stands among the words of its sentence."""

    verb: str
    at: int


def acts(text: str) -> tuple[str, ...]:
    """Return the verbs of *text* that tell one to change something, not those that look or wait."""
    return tuple(verb for verb in told(text) if verb in verbs.ACTS)


def is_compound(text: str) -> bool:
    """Whether *text* has anything between whose sides two instructions could stand: most have not."""
    return any(sign in text for sign in _BETWEEN)


def told(text: str) -> tuple[str, ...]:
    """Return the verbs of *text* that tell one to do, to look or to wait, in order."""
    return tuple(act.verb for tokens in _sentences(text) for act in _told(tokens))


@lru_cache(maxsize=20_000)
def _sentences(text: str) -> tuple[list[str], ...]:
    """Return the words and signs of each sentence."""
    return tuple([_tokens(sentence) for sentence in sentences(unquoted(text))])


def _tokens(sentence: str) -> list[str]:
    return [token.strip().lower().replace("’", "'") for token in _TOKEN.findall(sentence)]


def _told(tokens: list[str]) -> Iterator[Act]:
    last: Act | None = None
    for start, joined in _clauses(tokens):
        at = _past_adverbs(tokens, start)
        verb = tokens[at] if at < len(tokens) else ""
        if verb not in verbs.VERBS or verb in verbs.MANNERS or not _is_told(tokens, at, joined):
            continue
        act = Act(verb, at)
        if last and (_one_movement(tokens, last, act) or _puts_away(tokens, last, act)):
            continue
        last = act
        yield act


def _clauses(tokens: list[str]) -> Iterator[tuple[int, str]]:
    """Yield where a clause may begin, behind a condition at the head, with the sign or word before it."""
    start = _instruction(tokens)
    if start is None:
        return
    yield start, ""
    for at in range(start, len(tokens) - 1):
        here, after = tokens[at], tokens[at + 1]
        if here in _SIGNS or here in {"and", "then"}:
            both = after in {"and", "then", "&", "but"}
            if not both:
                before = tokens[at - 1] if here == "then" and at else ""
                yield at + 1, f"{before} then" if here == "then" else here


def _instruction(tokens: list[str]) -> int | None:
    """Return where the instruction begins, behind adverbs and conditions, or None where no comma ends a condition."""
    at = _past_adverbs(tokens, 0)
    if at >= len(tokens) or tokens[at] not in verbs.OPENERS:
        return at if at < len(tokens) else None
    commas = [number for number, token in enumerate(tokens) if token in {",", ":", "–", "—"} and number > at]
    ends = [_past_adverbs(tokens, comma + 1) for comma in commas]
    return next((end for end in ends if _may_be_told(tokens, end)), ends[0] if ends else None)


def _past_adverbs(tokens: list[str], at: int) -> int:
    while at < len(tokens) and (
        tokens[at] in verbs.BEFORE
        or (tokens[at] == "," and at > 0 and tokens[at - 1] in verbs.BEFORE | {"carefully", "slowly", "gently"})
        or (tokens[at].endswith("ly") and tokens[at] not in verbs.ENDS_IN_LY)
    ):
        at += 1
    return at


def _may_be_told(tokens: list[str], at: int) -> bool:
    return at < len(tokens) and tokens[at] in verbs.VERBS and _has_object(tokens, at)


def _has_object(tokens: list[str], at: int) -> bool:
    """Whether a verb that may be a thing's name has something to act on, or to look for."""
    verb, after = tokens[at], tokens[at + 1] if at + 1 < len(tokens) else ""
    sought = verb in verbs.LOOKS and after in verbs.SOUGHT
    return verb not in verbs.DOUBTFUL or after in verbs.OBJECTS or after[:1].isdigit() or sought


def _is_told(tokens: list[str], at: int, joined: str) -> bool:
    """Whether the verb at *at* begins a clause of its own that tells one to do it."""
    if not joined:
        return True
    if not _has_object(tokens, at):
        return False
    return joined not in {"and", "&"} or not _goes_on(tokens, at - 1)


def _goes_on(tokens: list[str], sign: int) -> bool:
    """Whether an `and` may go on with what a clause before it says: `so that you can lift and turn it`."""
    first = max((at for at in range(sign) if tokens[at] in {";", ",", "then", ":"}), default=-1)
    clause = tokens[first + 1 : sign]
    if any(here == "to" and after in verbs.VERBS for here, after in pairwise(clause)):
        return True
    inner = [at for at, word in enumerate(clause) if word in verbs.SUBORDINATES and at > 0]
    if not inner:
        return False
    # `until it softens and lift the window`: what `it` does would be said as `lifts`; but `until it is flat and shut`.
    subject, verb = [*clause[inner[-1] + 1 :], "", ""][:2]
    says_how = verb in verbs.AUXILIARIES and verbs.OBJECTS.isdisjoint(tokens[sign + 2 : sign + 3])
    return subject not in {"it", "this", "everything"} or says_how


def _one_movement(tokens: list[str], first: Act, second: Act) -> bool:
    """Whether two verbs are one movement of the hand: they share what they act on."""
    between = [word for word in tokens[first.at + 1 : second.at] if word not in {"and", "down", "in", "up", "out"}]
    return not between and {first.verb, second.verb} <= verbs.MOVEMENTS


def _puts_away(tokens: list[str], first: Act, second: Act) -> bool:
    """Whether the second clause only says where what was just taken goes: `and put it aside`."""
    rest = tokens[second.at + 1 : second.at + 3]
    return (
        first.verb in verbs.TAKES
        and second.verb in verbs.PUTS
        and len(rest) == 2
        and rest[0] in {"it", "them"}
        and rest[1] in _AWAY
    )


def first_word(text: str, names: Collection[str] = ()) -> str | None:
    """
    Return the word that *text* begins with where that is surely no instruction, or None.

    Adverbs and conditions before an instruction are passed over. *names* are those of the things on the bench, in small
    letters, of two words or more: a text that begins with one tells of the thing.
    """
    if text.partition(" ")[0].lower() in verbs.VERBS:
        return None
    tokens = next(iter(_sentences(text)), [])
    at = _instruction(tokens)
    if at is None or at >= len(tokens):
        return None
    later = any(
        sign == "," and _may_be_told(tokens, _past_adverbs(tokens, comma + 1))
        for comma, sign in enumerate(tokens)
        if comma > at
    )
    return None if later or not _is_none(tokens[at:], names) else tokens[at]


def _is_none(words: list[str], names: Collection[str]) -> bool:
    """Whether what *words* begin with is surely no instruction."""
    word = words[0]
    if word in verbs.VERBS:
        return False
    kinds = verbs.DETERMINERS | verbs.QUALITIES | verbs.AUXILIARIES | verbs.THINGS
    return word[0].isdigit() or word in kinds or _is_named(words, names) or _is_a_form(word) or _is_told_of(words)


def _is_a_form(word: str) -> bool:
    """Whether *word* is a form of a verb that tells nobody to do anything, or several things."""
    if word.endswith("ing"):
        return word not in verbs.ENDS_IN_ING and len(word) > len("ring")
    if word.endswith("ed"):
        return word not in verbs.ENDS_IN_ED
    stem = word[:-2] if word.endswith(("shes", "sses", "ches", "xes")) else word[:-1]
    return word.endswith("s") and word not in verbs.ENDS_IN_S and stem in verbs.VERBS | verbs.THINGS


def _is_told_of(words: list[str]) -> bool:
    """Whether an unknown word is what the sentence tells of: `care must be taken`."""
    if len(words) > 1 and words[1] in verbs.SUBORDINATES | verbs.OBJECTS:
        return False
    return not verbs.AUXILIARIES.isdisjoint(words[1:3])


def _is_named(words: list[str], names: Collection[str]) -> bool:
    return any(" ".join(words[:length]) in names for length in (2, 3, 4) if length <= len(words))
