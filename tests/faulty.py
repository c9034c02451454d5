"""A small knowledge base with known faults of every weight, and with signs in them that a format may stumble over."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import TYPE_CHECKING

from tests.make import DOCS, REPLACE_LAMP, SHOP, check

if TYPE_CHECKING:
    from benchleaf.report.summary import Report

AGAIN = f"{DOCS}/repairs/wader/again.yml"
BARE = f"{DOCS}/repairs/wader/bare.yml"
LAMP = f"{DOCS}/repairs/wader/replace-lamp.yml"
ODD = f"{DOCS}/repairs/wader/look at 5 µm.yml"
# 𝄞 is one character, two units of UTF-16, four bytes of UTF-8.
NO_UNIT = "  - {do: Hum 𝄞., wait: 60}\n  - {do: Unplug the lamp., unplug: lamp-plug}\n"
ALLOWED = REPLACE_LAMP.replace(
    "  - {do: Unplug the lamp., unplug: lamp-plug}\n",
    "  - do: Unplug the lamp.\n    unplug: lamp-plug\n    picture: media/none.svg\n"
    "    allow: [{rule: missing-picture, because: It is drawn next week.}]\n",
)
ODD_KEY = '"50 %, a: [b](c) {0} <i> | \\e[31m": 1\n'
FILES = {
    f"{DOCS}/shop.yml": SHOP.replace("Bench\n", "Bench #4\n") + "review_after: 365 d\n",
    AGAIN: REPLACE_LAMP.replace("unplug: lamp-plug", "unplug: lampplug")
    .replace("  - {do: Lay a new lamp in., replace: lamp}\n",
             "  - {do: Unplug the lamp., unplug: lampplug}\n  - {do: Lay a new lamp in., replace: lamp}\n"),
    BARE: REPLACE_LAMP.replace("  - {do: Unplug the lamp., unplug: lamp-plug}\n", NO_UNIT),
    LAMP: ALLOWED,
    ODD: ODD_KEY + REPLACE_LAMP,
}  # fmt: skip


def faulty(*, strict: bool = False, changes: dict[str, str] | None = None) -> Report:
    """Return what is found in these files, as of a day on which a review is overdue."""
    return replace(check({**FILES, **(changes or {})}, dt.date(2028, 1, 1)).report(strict=strict), above="kb")
