"""What several formats say of a finding in the same words."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from benchleaf.findings import Finding

# What a terminal would obey instead of showing, and what XML 1.0 cannot hold.
_UNPRINTABLE = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\ud800-\udfff\ufffe\uffff]")
NO_REASON = "Nobody says why."
"""What stands for the reason of an exception that gives none."""


def told(finding: Finding) -> str:
    """Return what *finding* says, with the variants that it holds for."""
    only = f" ({', '.join(finding.variants)})" if finding.variants else ""
    return visible(finding.message + only)


def advice(finding: Finding) -> str:
    """Return what to do about *finding*; where an author has allowed it, the reason for that."""
    return visible(finding.help if finding.allowed is None else finding.allowed or NO_REASON)


def visible(text: str) -> str:
    """Return *text* with the code of each character that cannot be shown in its place."""
    return _UNPRINTABLE.sub(lambda sign: sign[0].encode("unicode_escape").decode(), text)
