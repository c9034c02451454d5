"""Of two values for one name a reader knows one, and nobody knows which: found in `benchleaf.source`, on the way in."""

from __future__ import annotations

from benchleaf.checks.rule import Rule
from benchleaf.findings import Level

RULE = Rule("duplicate-key", Level.ERROR, never_allowed=True)
