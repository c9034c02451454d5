"""How likely a cause is, what an outcome says of it, what is cheapest next, and whether a repair pays."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.decisions import bayes
from benchleaf.decisions.bounds import in_order
from benchleaf.decisions.plan import plan
from benchleaf.decisions.problem import End, Problem, Remedy, Trial
from benchleaf.decisions.replace import Repair, verdict
from benchleaf.decisions.shares import shares, success
from benchleaf.pages.compose.methods.kind import one
from benchleaf.pages.lists import Method

if TYPE_CHECKING:
    from collections.abc import Iterator

# Two causes, one test at the closed device, one cure each behind the same opening: small enough to redo on paper.
EXAMPLE = Problem(
    causes=("port", "battery"),
    shares=(0.6, 0.4),
    tests=(Trial("current", 0, 2.0, ("none", "normal"), ((0.9, 0.1), (0.1, 0.9))),),
    cures=(Remedy("clean", 1, 12.0, (0.8, 0.0)), Remedy("renew", 1, 24.0, (0.0, 0.9))),
    travel=((0.0, 4.0), (4.0, 0.0)),
    end=End("refer", 60.0),
)


def methods() -> Iterator[Method]:
    """Yield the methods of shares, of outcomes, of the plan, and of repair or replace."""
    yield from _beliefs()
    yield _plan()
    yield _replace()


def _beliefs() -> Iterator[Method]:
    port, battery, rail = shares((14, 6, 3))
    works = success(11, 14)
    yield Method(
        "shares",
        "Share of a cause",
        "How likely each cause is before any test, and how often a cure works, from what was counted.",
        ("p = (seen + 1)/(N + n)", "success = (a + 1)/(b + 2) of a in b; 0.9 where nobody counted",
         "interval: 5 % and 95 % of Beta(seen + 1, N + n − seen − 1)"),
        (("seen, N", "cases of this cause, and of all causes of the diagnosis, records of the bench with them"),
         ("n", "number of causes")),
        "Laplace's rule: a Dirichlet prior with 1 for each cause; checked against pgmpy and scipy. 0.9: common "
        "practice, no source",
        "causes that are alike from case to case; 0 to 10⁶ cases",
        "the interval; with other units, other customers or another season it may be wider",
        "seen 14, 6 and 3 times; a cure that worked 11 of 14 times",
        (one("First", port.value, ""), one("Low", port.low, "", 3), one("High", port.high, "", 3),
         one("Second", battery.value, ""), one("Third", rail.value, ""), one("Cure works", works.value, "")),
    )  # fmt: skip
    after = bayes.after((0.6, 0.4), [(0.9, 0.1)])
    yield Method(
        "bayes",
        "What an outcome says",
        "How likely each cause is after a test showed something, or a cure was tried in vain.",
        ("p(cause | outcome) = p · given / Σ p · given", "in vain: p · (1 − success) / Σ p · (1 − success)"),
        (("given", "how often the cause shows the outcome, as the diagnosis says; outcomes of a test sum to 1"),),
        "Bayes' rule; checked against pgmpy and by counting every joint event",
        "one fault at a time; tests that do not depend on one another once the cause is known",
        "that of what is given, which is judgement; an interval is carried along with the other causes in their mean "
        "proportions",
        "0.6 and 0.4; the first shows the outcome in 0.9, the second in 0.1",
        (one("First", after[0], ""), one("Second", after[1], "")),
    )  # fmt: skip


def _plan() -> Method:
    found = plan(EXAMPLE)
    named = {start.id: start.high for start in found.starts}
    return Method(
        "plan",
        "What to do next",
        "Which test or cure comes next, for the least expected cost to a cure or a referral. Opening and closing are "
        "paid once for what is done at the same level, so that cost over success alone does not give the order.",
        ("test: V = way + cost + Σ P(outcome) · V(outcome)",
         "cure: V = way in + cost + way out + (1 − success) · V(in vain)",
         "end: V = price of the referral, or of writing off", "cost = minutes / 60 · labour + parts that are renewed"),
        (("V", "expected cost from here, the least over all that can be done"),
         ("way", "closings up to the common level, openings down"),
         ("minutes", "midpoint of each step's time, without the proof; of a wait at most 30")),
        "expected cost of repair: Heckerman, Breese and Rommelse (1995), abstract; shared opening as clusters: "
        "arXiv 1203.3502, abstract. Checked against every policy of small problems",
        "at most 10 causes, 8 tests of 4 outcomes, 12 cures; each done once; a perfect proof",
        "exact for these costs, or said to be within so many per cent of the cheapest; costs are estimates",
        "port 0.6, battery 0.4. Test: 2 EUR, closed, shows “none” in 0.9 and 0.1. Clean: 12 EUR, works in 0.8 on the "
        "port; renew: 24 EUR, works in 0.9 on the battery; both behind an opening of 4 and a closing of 4 EUR. "
        "Refer: 60 EUR",
        (one("With the test first", named["current"], "EUR"), one("With cleaning first", named["clean"], "EUR"),
         one("With renewing first", named["renew"], "EUR"), one("At once to the end", named["refer"], "EUR"),
         one("Clean, renew, refer, no test", in_order(EXAMPLE, (0, 1)), "EUR")),
    )  # fmt: skip


def _replace() -> Method:
    repair = Repair(3600.0, 48.0, 12.0, 0.0, success(8, 10))
    found = verdict(repair, 120.0)
    return Method(
        "replace",
        "Repair or replace",
        "What a repair costs all in, beside a new device that is bought where the repair did not work.",
        ("all in = labour + parts + (1 − success) · price", "breaks even at success = (labour + parts)/price",
         "and at price = (labour + parts)/success"),
        (("price", "of a new device"), ("success", "as counted")),
        "arithmetic",
        "one try of one cure; days of waiting for a part are told, not priced",
        "that of minutes and success; where the ends of success give two answers, it says that too few were counted",
        "1 h at 48 EUR/h, parts 12 EUR, worked 8 of 10 times, a new one costs 120 EUR",
        (one("All in", found.repair, "EUR"), one("Breaks even at a success of", found.success_needed, ""),
         one("Breaks even at a price of", found.price_needed or 0.0, "EUR")),
    )  # fmt: skip
