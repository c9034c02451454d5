"""Each page of the site is of a kind that the other tests look at."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tests.browser.kinds import KINDS

if TYPE_CHECKING:
    from pathlib import Path


def test_each_page_has_one_kind(demo_site: Path) -> None:
    """A new kind of page must be given its place in `kinds.py`, or nobody would look at it."""
    known = [path for pattern in KINDS.values() for path in demo_site.glob(pattern)]

    assert [] == sorted(set(demo_site.rglob("*.html")) - set(known))
    assert len(known) == len(set(known))


def test_each_kind_has_a_page(demo_site: Path) -> None:
    """The demonstration has a page of each kind."""
    empty = [kind for kind, pattern in KINDS.items() if not list(demo_site.glob(pattern))]

    assert [] == empty
