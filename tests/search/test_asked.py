"""The labelled questions: what customers and technicians type leads to the page that they mean."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.conftest import tool
from tests.search.asked import Answered, answer, first, first_three, labelled, table

if TYPE_CHECKING:
    from pathlib import Path

# Less than what was reached by one or two questions in a hundred: a word added for one must not cost several others.
FLOORS = {"tuned on": (0.84, 0.96), "kept out": (0.86, 0.945)}


@pytest.fixture(scope="module")
def answered(demo_site: Path) -> tuple[Answered, ...]:
    """Return all labelled questions, as the built demonstration answers them."""
    tool("node", "nodejs")
    return answer(demo_site, labelled())


@pytest.mark.parametrize("half", FLOORS)
def test_questions_are_answered(answered: tuple[Answered, ...], half: str) -> None:
    """In each half, the right page is first, and among the first three, about as often as it was when last improved."""
    of_half = [one for one in answered if one.asked.is_kept_out is (half == "kept out")]

    reached = (first(of_half), first_three(of_half))

    assert all(share >= floor for share, floor in zip(reached, FLOORS[half], strict=True)), table(answered)


def test_halves() -> None:
    """There are at least 160 questions, none twice, and each half holds more than two fifths of them."""
    asked = labelled()
    kept_out = sum(one.is_kept_out for one in asked) / len(asked)

    assert (True, len(asked), True) == (len(asked) >= 160, len({one.text for one in asked}), 0.4 < kept_out < 0.6)


def test_labels_name_pages(demo_site: Path) -> None:
    """Every page that a label names is there."""
    named = sorted({page for one in labelled() for page in one.pages})

    assert [] == [page for page in named if not (demo_site / page).is_file()]
