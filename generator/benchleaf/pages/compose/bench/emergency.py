"""Stop and make safe: the shop's own page, or the one that Benchleaf brings, taken apart into its cases."""

from __future__ import annotations

import re
from functools import lru_cache

from benchleaf.pages.bench import Emergency, Trouble
from benchleaf.pages.prose import prose


@lru_cache(maxsize=8)
def emergency(text: str, root: str) -> Emergency:
    """Return the Markdown *text* as a lead and its cases, one for each heading of the second order; links lead on."""
    body = re.sub(r"(\]\()(?![a-z]+:|#|/)([^)\s]*?)\.md(?=[#)\s])", rf"\g<1>{root}\g<2>.html", text)
    lead, *cases = re.split(r"^## +", body, flags=re.MULTILINE)
    lead = re.sub(r"\A\s*# .*\n", "", lead)
    return Emergency(
        prose(lead),
        tuple(
            Trouble(f"stop-{number}", title.strip(), prose(rest))
            for number, (title, _, rest) in enumerate((case.partition("\n") for case in cases), start=1)
        ),
    )
