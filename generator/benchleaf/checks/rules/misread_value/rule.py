"""A value must be the same to every reader: found in `benchleaf.shape`, on the way in."""

from __future__ import annotations

from benchleaf.checks.rule import Rule
from benchleaf.findings import Level

RULE = Rule("misread-value", Level.ERROR, never_allowed=True)
