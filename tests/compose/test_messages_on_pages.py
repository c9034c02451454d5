"""The safety messages on the pages are those of the traces: each before its step, in its words, for its variants."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.derive.callouts import callouts
from benchleaf.dryrun.performed import Bench
from tests.compose.demonstration import DEMONSTRATION, EVERY, page
from tests.dryrun.dangers import CELSIUS

if TYPE_CHECKING:
    from bs4 import Tag

# By step, hazard, signal word and what is said first.
_Message = tuple[str, str, str, str]


@EVERY
def test_messages(key: tuple[str, str]) -> None:
    """On each variant the page tells, before each step, what the trace has found, and nothing else."""
    procedure = DEMONSTRATION.base.procedures[key]

    for trace in Bench(DEMONSTRATION.base).perform(procedure):
        wanted = {(one.step, one.hazard, one.signal, one.what) for one in callouts(trace, CELSIUS)}
        for variant in trace.variants:
            assert wanted == on_page(key, variant)


@EVERY
def test_gathered_at_the_head(key: tuple[str, str]) -> None:
    """The head names each hazard with its signal word, once, and leads to the first step that it is told before."""
    told = page(key).select("tr.message [data-signal]")
    gathered = [item for item in page(key).select(".needs li") if item.b]

    assert {(one["data-signal"], label(one)) for one in told} == {
        (item.b.get_text().lower(), item.a.get_text()) for item in gathered if item.b and item.a
    }
    assert len(gathered) == len({item.get_text() for item in gathered})


def on_page(key: tuple[str, str], variant: str) -> set[_Message]:
    """Return the messages that *variant* shows of the procedure *key*, without an author's own."""
    return {
        (str(step["data-step"]), str(one["data-callout"]), str(one["data-signal"]), plain(one.select("p > b")[1]))
        for step in page(key).select("[data-step]")
        for row in step.select("tr.message")
        if shown(row, variant)
        for one in row.select("[data-signal]")
    }


def shown(row: Tag, variant: str) -> bool:
    """Whether *row* is for *variant*."""
    return variant in str(row.get("data-variant", variant)).split()


def plain(tag: Tag) -> str:
    """Return the text of *tag* with plain spaces."""
    return " ".join(tag.get_text().split())


def label(message: Tag) -> str:
    """Return the hazard of *message* as the head names it."""
    name = str(message["data-callout"]).replace("-", " ")
    return "Static" if name == "esd" else name.capitalize()
