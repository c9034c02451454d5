"""Text behind ` #` is gone without a trace: found in `benchleaf.source`, on the way in."""

from __future__ import annotations

from benchleaf.checks.rule import Rule
from benchleaf.findings import Level

RULE = Rule("swallowed-comment", Level.WARNING)
