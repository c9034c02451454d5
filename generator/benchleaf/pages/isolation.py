"""The fault isolation sheet: tests and what they say, causes and their shares, what to do next, the whole plan."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.pages.parts import NO_PROSE, Link, Only, Share, Shell, TitleBlock, VariantChoice, Words

if TYPE_CHECKING:
    from markupsafe import Markup


@dataclass(frozen=True, slots=True)
class Option:
    """One thing that a row can be set to."""

    id: str  # "none"
    title: str  # "Below 20 mA"
    set: bool = False  # whether it is set before anybody presses anything


@dataclass(frozen=True, slots=True)
class ArrivedRow:
    """How the device may have arrived, where a test depends on it."""

    id: str  # "liquid"
    title: str  # "Liquid"
    options: tuple[Option, ...]  # the first is what is reckoned with where nothing is said


@dataclass(frozen=True, slots=True)
class TestRow:
    """One test and what it may show."""

    id: str  # "charge-current"
    title: str  # "Charge current"
    where: str  # "USB meter, closed, 2 min"
    do: str  # "Read the current that the unit draws from a limited 5 V supply."
    outcomes: tuple[Option, ...]
    barred: str = ""  # "Not on a unit that arrived with: water, sea water, liquid not known."
    only: Only | None = None
    next: bool = False  # whether it is the cheapest thing to do before any test


@dataclass(frozen=True, slots=True)
class SuspectRow:
    """One cause, the likeliest first."""

    id: str  # "corroded-port"
    title: str  # "Corroded charge port"
    seen: str  # "seen 14 times"
    share: Share | None = None  # None where faults come together: nothing is ranked
    cures: tuple[Words, ...] = ()  # what ends it, where nothing is ranked


@dataclass(frozen=True, slots=True)
class ActionRow:
    """One thing that can be done next, and what it comes to."""

    kind: str  # "test", "cure", "refer"
    id: str  # "clean-charge-port"
    do: Link
    cures: str = ""  # "Corroded charge port"
    level: str = ""  # "open"
    minutes: str = ""  # "15 + 8"
    parts: str = ""  # "4.00 EUR"
    works: str = ""  # "43 %": of what is left now
    cost: str = ""  # "39.36 EUR"
    next: bool = False
    bench: str = ""  # the page to work by the cure; "" where there is none


@dataclass(frozen=True, slots=True)
class PlanLine:
    """One line of the whole plan, set in by `depth`."""

    depth: str  # "0" to "9"
    number: str  # "1.2.1"
    when: str  # "Below 20 mA": the outcome that leads here; "If not" after a cure
    do: Words  # "Clean and re-tin a corroded charge port"
    level: str = ""  # "open"
    chance: str = ""  # "52 %": of all units that come with this complaint
    minutes: str = ""  # "25 min": at the bench when it is done
    ends: str = ""  # "Cured: 37 %", or "Ends here" at a referral


@dataclass(frozen=True, slots=True)
class PlanGroup:
    """What holds for the variants that cost alike."""

    only: Only | None  # None where all variants cost alike
    title: str  # "Godwit G1", or "" where all variants cost alike
    next: str  # "Charge current"
    reason: str  # why, in one sentence
    actions: tuple[ActionRow, ...]
    lines: tuple[PlanLine, ...]
    summary: str  # "47.07 EUR and 20 min are to be expected, cured in 63 %. No plan is cheaper."
    left_out: str = ""  # where ways that are seldom gone are not written out


@dataclass(frozen=True, slots=True)
class RepairRow:
    """One cure beside a new device."""

    procedure: Link
    cause: str
    minutes: str  # "23 min"
    labour: str  # "17.86 EUR"
    parts: str
    lead_time: str  # "3 d"; "" where no part is waited for
    works: str  # "75 %"
    counted: str  # "54–90 %": between which ends, by what was counted
    repair: str = ""  # "181.86 EUR": with the new device where it did not work
    verdict: str = ""  # "Pays: breaks even at 4 % success, or at a price of 29.15 EUR."
    only: Only | None = None


@dataclass(frozen=True, slots=True)
class IsolationView:
    """diagnosis/<device>/<symptom>.html."""

    shell: Shell
    title: TitleBlock
    asks: tuple[str, ...]
    arrived: tuple[ArrivedRow, ...]
    tests: tuple[TestRow, ...]
    causes: tuple[SuspectRow, ...]
    groups: tuple[PlanGroup, ...]
    repairs: tuple[RepairRow, ...]
    data: str  # JSON for assets/isolation.js
    variants: VariantChoice | None = None
    several: bool = False
    because: str = ""  # why there is no plan
    new_price: str = ""  # "640 EUR": what a new device costs
    notes: Markup = NO_PROSE  # of the diagnosis, from `prose`
    foot: tuple[Words, ...] = ()  # the last lines of the sheet
