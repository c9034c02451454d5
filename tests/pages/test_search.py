"""The search's index: what it holds, how it is written, how large it is. What it finds: tests/js/search.test.mjs."""

from __future__ import annotations

import json
import random
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchleaf.pages.search import SearchEntry, index_script
from benchleaf.pages.search_alike import ALIKE, MEANT
from benchleaf.pages.search_code import DIGITS, front, number, rising
from benchleaf.pages.search_words import NEGATIONS, NO, WEAK, spelt, stem, tables, tokens
from tests.search.made_up import entries

BEFORE, AFTER = "window.benchleafIndex=", ";\n"
PORT = SearchEntry(
    "procedure",
    "Clean the charge port",
    "repairs/godwit/clean-charge-port.html",
    "Godwit",
    words=(("step", "Do not pry. Charge, charging."),),
)
NO_CHARGE = SearchEntry(
    "symptom",
    "Does not charge",
    "symptoms/no-charge.html",
    says=("won’t charge",),
    answers=((PORT.title, PORT.href), ("Ask the maker", "ask.html")),
)


def read(script: str) -> dict[str, object]:
    """Return what *script* hands to the page."""
    index: dict[str, object] = json.loads(script.removeprefix(BEFORE).removesuffix(AFTER))
    return index


def known_in(script: str) -> list[str]:
    """Return the words of *script*: each as a capital for how much of the one before it shares, and the rest."""
    known = [""]
    for shared, rest in re.findall("([A-Z])([^A-Z]*)", str(read(script)["words"])):
        known.append(known[-1][: ord(shared) - ord("A")] + rest)
    return known[1:]


def test_index_as_it_is_written() -> None:
    """The index of two entries is this, so that a change of its form is seen."""
    index = read(index_script([NO_CHARGE, PORT]))

    assert {
        "version": 2,
        "count": 2,
        "records": "&  &    &&& ' ' ",
        "texts": "\nClean the charge port\nGodwit\nDoes not charge\nwon\u2019t charge\nAsk the maker",
        "hrefs": " repairs/godwit/clean-charge-port*| symptoms/no-charge*| ask*",
    } == {key: index[key] for key in ("version", "count", "records", "texts", "hrefs")}


def test_order_of_entries_does_not_matter() -> None:
    """The same entries in another order give the same script, byte for byte."""
    made = list(entries(40))
    shuffled = random.Random(1).sample(made, len(made))  # noqa: S311 - an order, not a secret

    assert index_script(made) == index_script(shuffled)


def test_script_ends_no_script() -> None:
    """A title that would end a script, or begin a comment in one, does not; and all is ASCII."""
    title = "</script><!-- \u2028 \\ \" ' 350 °C"
    script = index_script([SearchEntry("page", title, "a.html", says=(title,))])

    assert (True, False, title.replace("\u2028", " ").replace("   ", " ")) == (
        script.isascii(),
        "<" in script,
        str(read(script)["texts"]).split("\n")[1],
    )


def test_empty_site() -> None:
    """A site of nothing has an index of nothing."""
    index = read(index_script([]))

    assert (0, "", "", "") == (index["count"], index["records"], index["texts"], index["hrefs"])


def test_index_stays_small() -> None:
    """At 1,000 procedures with 170 words of steps each, a procedure costs less than 240 bytes."""
    made = index_script(entries(1000))

    assert len(made) < 240_000


@pytest.mark.parametrize(
    "kin",
    [
        "charge charges charged charging",
        "battery batteries",
        "switch switches switched switching",
        "lens lenses",
        "tape tapes taped taping",
        "tap taps tapped tapping",
        "glue glued gluing",
        "fog fogs fogged foggy",
        "swell swells swelling swollen",
        "freeze frozen froze freezing",
        "calibrate calibrated calibration",
        "initialise initialize initialisation initialization",
        "slow slowly",
        "die dies died dying",
        "dry dries dried drying",
    ],
)
def test_kin(kin: str) -> None:
    """Forms of one word are one to the search."""
    assert 1 == len({stem(word) for word in kin.split()})


@pytest.mark.parametrize(
    "strangers",
    [
        "charge charger",
        "note not",
        "glass gas",
        "string sting",
        "speed spee",
        "status stat",
        "sizing seizing",
        "bed be",
    ],
)
def test_strangers(strangers: str) -> None:
    """Words that only look alike stay apart."""
    one, other = strangers.split()

    assert stem(one) != stem(other)


def test_denials_are_one_word() -> None:
    """No, not, won't and the rest are one word, with either apostrophe or none."""
    words = tokens("No not won't won’t wont doesn't cannot can't without never nothing")

    assert {NO} == {stem(word) for word in words}


@pytest.mark.parametrize("line", [*ALIKE, *MEANT])
def test_words_that_stand_for_others(line: str) -> None:
    """Each line holds single words that the search tells apart, two at the least, and none that it passes by."""
    sides = [side.split() for side in line.split(">")]
    words = [word for side in sides for word in side]

    assert (words, [], True) == (
        [word for word in words if len(tokens(word)) == 1],
        [word for word in words if word in WEAK or (word in NEGATIONS and word != "not")],
        len({stem(spelt(word)) for word in words}) >= 2,
    )


def test_only_what_leads_somewhere_travels() -> None:
    """Other words for a thing are in the index where the base has the thing, and nowhere else."""
    display = known_in(index_script([SearchEntry("part", "Display", "a.html")]))
    seal = known_in(index_script([SearchEntry("part", "Seal", "a.html")]))

    assert (True, False, True) == ("lcd" in display, "lcd" in seal, "gasket" in seal)


def test_spellings() -> None:
    """British and American spellings are one to the search."""
    british = tokens("colour grey vapour metre centre fibre aluminium sulphur analyse labelled")
    american = tokens("color gray vapor meter center fiber aluminum sulfur analyze labeled")

    assert [stem(word) for word in british] == [stem(word) for word in american]


def test_hyphen() -> None:
    """A word with a hyphen is found by its parts and as one."""
    assert ("re", "tin", "each", "pad", "retin") == tokens("Re-tin each pad")


def test_tables_go_to_the_browser_as_they_are() -> None:
    """The tables survive the way through JSON, so Python and the browser fold by the same ones."""
    assert json.loads(json.dumps(tables())) == read(index_script([]))["tables"]


@given(st.text(alphabet="abcdefghinorsty", min_size=1, max_size=12))
def test_stem_is_its_own_stem(word: str) -> None:
    """What kin share is their own kin: folding twice is folding once."""
    assert stem(word) == stem(stem(word))


@given(st.integers(0, 10**7))
def test_numbers_are_of_their_digits(value: int) -> None:
    """A number is written in its own digits, and no more of them than it needs."""
    written = number(value)

    assert (set(), True) == (set(written) - set(DIGITS), len(written) <= 1 + value.bit_length() // 4)


def test_small_gaps_take_one_letter_each() -> None:
    """Entries that lie close together cost one letter each."""
    assert 5 == len(rising([0, 1, 2, 40, 100]))


def test_words_share_their_beginnings() -> None:
    """A word is written as what it does not share with the one before it."""
    assert "AchargeGrFing" == front(["charge", "charger", "charging"])
