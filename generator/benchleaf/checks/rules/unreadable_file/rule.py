"""What cannot be read cannot be followed: found in `benchleaf.source`, on the way in."""

from __future__ import annotations

from benchleaf.checks.rule import Rule
from benchleaf.findings import Level

RULE = Rule("unreadable-file", Level.ERROR, never_allowed=True)
