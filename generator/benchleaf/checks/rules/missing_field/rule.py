"""What is not written cannot be shown at the bench: found in `benchleaf.shape`, on the way in."""

from __future__ import annotations

from benchleaf.checks.rule import Rule
from benchleaf.findings import Level

RULE = Rule("missing-field", Level.ERROR, never_allowed=True)
