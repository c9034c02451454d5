"""What is shown and what is read must be the same: found in `benchleaf.source`, on the way in."""

from __future__ import annotations

from benchleaf.checks.rule import Rule
from benchleaf.findings import Level

RULE = Rule("hidden-character", Level.ERROR, never_allowed=True)
