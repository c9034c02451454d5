"""A field that nobody reads is a limit or a caution lost: found in `benchleaf.shape`, on the way in."""

from __future__ import annotations

from benchleaf.checks.rule import Rule
from benchleaf.findings import Level

RULE = Rule("unknown-field", Level.ERROR, never_allowed=True)
