"""A number without its unit is read in the wrong one some day: found in `benchleaf.shape`, on the way in."""

from __future__ import annotations

from benchleaf.checks.rule import Rule
from benchleaf.findings import Level

RULE = Rule("bad-quantity", Level.ERROR, never_allowed=True)
