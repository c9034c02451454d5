"""How well the rules tell one instruction from several, and an instruction from none, on sentences sorted by hand."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import pytest
import yaml

from benchleaf.checks.text import verbs
from benchleaf.checks.text.instruction import acts, first_word, told
from tests.conftest import ROOT

if TYPE_CHECKING:
    from collections.abc import Callable

SORTED = yaml.safe_load((ROOT / "tests/checks/instructions.yml").read_text("utf-8"))
NAMES = frozenset(("back shell", "display plug"))


@dataclass(frozen=True)
class Score:
    """How many were found rightly and wrongly, and how many were missed."""

    rightly: int
    wrongly: int
    missed: int

    @property
    def precision(self) -> float:
        """Of those found, the share that was rightly found."""
        return self.rightly / (self.rightly + self.wrongly)

    @property
    def recall(self) -> float:
        """Of those to be found, the share that was."""
        return self.rightly / (self.rightly + self.missed)


def is_several(text: str) -> bool:
    """Whether *text* is judged to hold several instructions."""
    return len(acts(text)) > 1 or len(told(text)) > max(2, len(acts(text)) + 1)


def is_missing(text: str) -> bool:
    """Whether *text* is judged to begin with none."""
    return first_word(text, NAMES) is not None


def score(kind: str, judged: Callable[[str], bool]) -> Score:
    """Return how *judged* does on all sentences, those of *kind* being the ones to find."""
    each = [(sort, text) for sample in SORTED.values() for sort, texts in sample.items() for text in texts]
    found = [sort for sort, text in each if judged(text)]
    return Score(
        rightly=found.count(kind),
        wrongly=len(found) - found.count(kind),
        missed=sum(1 for sort, text in each if sort == kind and not judged(text)),
    )


def test_size() -> None:
    """The sample is large enough to say something, of each kind."""
    counts = {kind: sum(len(sample[kind]) for sample in SORTED.values()) for kind in ("one", "several", "missing")}

    assert {"one": 133, "several": 64, "missing": 67} == counts


@pytest.mark.parametrize(
    ("kind", "judged", "recall"),
    [("several", is_several, 0.98), ("missing", is_missing, 0.85)],
    ids=["several", "missing"],
)
def test_score(kind: str, judged: Callable[[str], bool], recall: float) -> None:
    """Nothing is found wrongly, and most of what is there is found."""
    result = score(kind, judged)

    assert 1.0 == result.precision
    assert result.recall >= recall


def test_words_are_of_one_kind() -> None:
    """A verb acts, looks, waits or says how; none does two of these."""
    kinds = (verbs.ACTS, verbs.LOOKS, verbs.WAITS, verbs.MANNERS)

    assert len(verbs.VERBS) == sum(len(kind) for kind in kinds)


def test_doubtful_words_are_verbs() -> None:
    """Only a verb can be in doubt between a verb and a thing."""
    assert verbs.DOUBTFUL <= verbs.VERBS


@pytest.mark.parametrize("text", ["", ".", "(by the edges)", "“Lock”", "-", "If it is", "and and and", "to, to, to"])
def test_any_text(text: str) -> None:
    """What is no sentence at all is judged without an exception, and nothing is found in it."""
    assert (None, ()) == (first_word(text), acts(text))
