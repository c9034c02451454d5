"""An exception without a reason cannot be told from an oversight, and nobody dares to take it back."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from benchleaf.checks.rule import Hit, Rule
from benchleaf.checks.walk import every_step
from benchleaf.findings import Level

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.step import Allow

_SAYS_NOTHING = frozenset((
    "", "allowed", "because", "fine", "fixme", "it is allowed", "it is fine", "it is ok", "its fine", "its ok", "later",
    "n a", "na", "needed", "no reason", "none", "nothing", "ok", "okay", "on purpose", "reason", "reasons", "see above",
    "tba", "tbc", "tbd", "to be done", "todo", "to do", "why not", "wip", "x", "xx", "xxx", "yes",
))  # fmt: skip
"""What authors write where a field is asked for and they have nothing to say."""


def check(base: KnowledgeBase) -> Iterator[Hit]:
    """Yield each exception that gives no reason, or a reason that says nothing."""
    for spot in every_step(base):
        for allow in spot.step.allow:
            if not _says_something(allow):
                yield Hit(allow.because_place or allow.place, *_said(allow), step=spot.step)


def _says_something(allow: Allow) -> bool:
    """Whether the reason is more than a filler, the rule's own name, or signs."""
    words = " ".join(re.findall(r"[^\W_]+", re.sub("['’.]", "", allow.because or "").lower()))
    return words not in _SAYS_NOTHING and words != allow.rule.text.replace("-", " ")


def _said(allow: Allow) -> tuple[str, str]:
    written = (allow.because or "").strip()
    what = f"with the reason `{written}`, which says nothing" if written else "and nobody says why"
    return (
        f"`{allow.rule}` is allowed here {what}: the next reader cannot tell this from an oversight",
        "Write what makes it safe here: `because: Both lengths go into the same deep boss.` Or take the exception out.",
    )


RULE = Rule("unexplained-allow", Level.ERROR, check)
