"""Search entries in, the search's index out: a classic script that a page loads when someone wants to search."""

from __future__ import annotations

import json
import re
from collections import defaultdict
from dataclasses import dataclass
from itertools import chain
from typing import TYPE_CHECKING, Literal, get_args

from benchleaf.pages.search_alike import ALIKE, MEANT
from benchleaf.pages.search_code import END, WEIGHTS, common, front, number, rising
from benchleaf.pages.search_words import NEGATIONS, NO, WEAK, stem, tables, tokens

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping
    from collections.abc import Set as AbstractSet

Kind = Literal["symptom", "procedure", "device", "part", "material", "page", "tool", "rule", "method", "sheet"]
Weight = Literal["title", "says", "part", "step"]  # where a word stands, the weightiest first

_KINDS: tuple[Kind, ...] = get_args(Kind)
_WEIGHTS: tuple[Weight, ...] = get_args(Weight)
_PAGE = ".html"
_SPACES = re.compile(r"[^\S\u00a0\u202f]+")  # a number keeps its unit beside it


@dataclass(frozen=True, slots=True)
class SearchEntry:
    """One thing that can be found."""

    kind: Kind
    title: str
    href: str  # relative to the site's folder
    device: str = ""  # the device's title, where the entry belongs to one
    says: tuple[str, ...] = ()  # in the customers' words; of a device its variants, of a page its headings
    words: tuple[tuple[Weight, str], ...] = ()  # what else finds it: (how much it weighs, text)
    answers: tuple[tuple[str, str], ...] = ()  # procedures that a symptom's row offers: (text, href)
    note: str = ""  # what the row says besides, and nothing finds


def index_script(entries: Iterable[SearchEntry]) -> str:
    """Return the text of `assets/search-index.js`. The order of `entries` does not matter."""
    ordered = sorted(entries, key=lambda entry: (entry.href, _KINDS.index(entry.kind), entry.title, entry.device))
    index = {"version": 2, "count": len(ordered), "tables": tables(), **_vocabulary(ordered), **_records(ordered)}
    script = json.dumps(index, separators=(",", ":")).replace("<", "\\u003c")
    return f"window.benchleafIndex={script};\n"


def _vocabulary(entries: list[SearchEntry]) -> dict[str, str]:
    """
    Return all words, which of them are kin, and where each kin stands.

    Typed words are compared with the words as they are written, since a slip often sits in an ending; the entries are
    kept once for all kin. The stem itself is among the words, so that a form that stands nowhere finds its kin.
    """
    words: set[str] = {*NEGATIONS}
    places: defaultdict[str, list[tuple[int, int]]] = defaultdict(list)
    for place, entry in enumerate(entries):
        weights: dict[str, int] = {}
        for weight, text in _texts(entry):
            # "Do not pry" in a step says nothing about a complaint.
            told = set(tokens(text)) - (WEAK | NEGATIONS if weight == "step" else WEAK)
            rank = _WEIGHTS.index(weight)
            words |= told
            for kin in map(stem, told):
                weights[kin] = min(weights.get(kin, rank), rank)
        for kin, rank in weights.items():
            places[kin].append((rank, place))
        words.update(word for word in tokens(entry.device) if word not in WEAK)

    known = {kin for kin in map(stem, words) if kin in places or kin == NO}
    groups = tuple(_alike(known))
    words.update(chain.from_iterable(chain.from_iterable(groups)))
    ordered = sorted(words | {stem(word) for word in words})
    numbers: dict[str, int] = {}
    kin_of = [numbers.setdefault(stem(word), len(numbers)) for word in ordered]
    return {
        "words": front(ordered),
        "kin": "".join(_kin(kin_of)),
        "places": END.join(_places(places[kin]) for kin in numbers),
        "alike": END.join(WEIGHTS[0].join(_numbers(side, numbers) for side in group) for group in groups),
    }


def _alike(known: AbstractSet[str]) -> Iterator[tuple[tuple[str, ...], ...]]:
    """
    Yield the words that stand for one another, and those that stand for others: of these, what means and what is meant.

    Only what leads to a word of the base is of use, so the others stay away.
    """
    for line in ALIKE:
        group = tokens(line)
        if any(stem(word) in known for word in group):
            yield (group,)
    for line in MEANT:
        said, meant = map(tokens, line.split(">"))
        if there := tuple(word for word in meant if stem(word) in known):
            yield said, there


def _numbers(words: Iterable[str], numbers: Mapping[str, int]) -> str:
    return rising(sorted({numbers[stem(word)] for word in words}))


def _texts(entry: SearchEntry) -> Iterator[tuple[Weight, str]]:
    """Yield all text of `entry` that finds it, but for the device's title: the records say whose it is."""
    yield "title", entry.title
    yield from (("says", text) for text in entry.says)
    yield from entry.words


def _kin(kin_of: list[int]) -> Iterator[str]:
    """Yield for each word 0 when it is the first of a new kin, otherwise how many kins back its own is, from 1."""
    known = 0
    for kin in kin_of:
        yield number(known - kin)
        known = max(known, kin + 1)


def _places(ranked: list[tuple[int, int]]) -> str:
    """Return the entries of one kin, by weight."""
    by_rank = ((mark, [place for rank, place in ranked if rank == own]) for own, mark in enumerate(WEIGHTS))
    return "".join(mark + rising(places) for mark, places in by_rank if places)


def _records(entries: list[SearchEntry]) -> dict[str, str]:
    """Return what a result shows: kind, title, device, note, customers' words, answers, and the way there."""
    links: dict[tuple[str, str], int] = {}
    for place, entry in enumerate(entries):
        links.setdefault((entry.title, entry.href), place)
    # Answers are almost always entries too; the others stand behind them, as links that nothing finds.
    others = sorted({link for entry in entries for link in entry.answers} - set(links), key=lambda link: link[::-1])
    links.update({link: place for place, link in enumerate(others, len(entries))})

    texts: dict[str, int] = {"": 0}
    records: list[str] = []
    for entry in entries:
        records += [number(_KINDS.index(entry.kind)), _text(texts, entry.title), _text(texts, entry.device)]
        records.append(_text(texts, entry.note))
        records += [number(len(entry.says)), *(_text(texts, text) for text in entry.says)]
        records += [number(len(entry.answers)), *(number(links[link]) for link in entry.answers)]
    records += [_text(texts, title) for title, _ in others]
    hrefs = [entry.href for entry in entries] + [href for _, href in others]
    return {"records": "".join(records), "texts": "\n".join(texts), "hrefs": END.join(_hrefs(hrefs))}


def _text(texts: dict[str, int], text: str) -> str:
    """Return the number of `text`, from 1, or 0 when it comes for the first time and takes the next place."""
    line = _SPACES.sub(" ", text).strip()
    if line in texts:
        return number(texts[line] + 1)
    texts[line] = len(texts)
    return number(0)


def _hrefs(hrefs: list[str]) -> Iterator[str]:
    """Yield each way as how much it shares with the one before it, and the rest; "*" stands for ".html"."""
    before = ""
    for href in hrefs:
        way = href.replace(END, "%7C").replace("*", "%2A")
        way = way.removesuffix(_PAGE) + "*" if way.endswith(_PAGE) else way
        shared = common(before, way)
        yield number(shared) + way[shared:]
        before = way
