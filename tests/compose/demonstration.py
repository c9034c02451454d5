"""The pages of the demonstration, those that are not approved too, by device and id of the procedure."""

from __future__ import annotations

from functools import cache

import pytest
from bs4 import BeautifulSoup

from benchleaf import build
from benchleaf.pages.compose.site import Options, page_of
from benchleaf.source.folder import scan
from tests import make
from tests.conftest import ROOT

DEMONSTRATION = build.check(scan(ROOT, "procedures"))
NAMES = [key for key, procedure in DEMONSTRATION.base.procedures.items() if procedure.status != "withdrawn"]
EVERY = pytest.mark.parametrize("key", NAMES, ids="/".join)


@cache
def pages() -> dict[str, str]:
    """Return the pages of the demonstration, those that are not approved too."""
    return make.pages(DEMONSTRATION, Options(drafts=True))


@cache
def page(key: tuple[str, str]) -> BeautifulSoup:
    """Return the page of a procedure."""
    return BeautifulSoup(pages()[page_of(DEMONSTRATION.base.procedures[key])], "html.parser")
