"""Where a reader starts: the customer's words. The first page, and one page for each symptom."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from markupsafe import Markup

from benchleaf.pages.parts import NO_PROSE, Link, Only, ProcedureRow, Share, Shell, TitleBlock, VariantChoice, Words


@dataclass(frozen=True, slots=True)
class MatrixRow:
    """One symptom across all devices."""

    symptom: Link  # to the symptom's page
    cells: tuple[Words, ...]  # one per device, in the matrix's order; () where the device has no such symptom


@dataclass(frozen=True, slots=True)
class Matrix:
    """Symptoms by devices: what to do first."""

    devices: tuple[Link, ...]  # the columns' heads
    rows: tuple[MatrixRow, ...]


@dataclass(frozen=True, slots=True)
class ChangeRow:
    """One change to a procedure."""

    date: str  # "2026-11-20"
    procedure: Link
    revision: str  # "rev 2 → 3"
    what: str = ""  # "heat mat 85 → 70 °C"


@dataclass(frozen=True, slots=True)
class HomeView:
    """index.html."""

    shell: Shell  # with search="home"
    heading: str  # "Find the procedure": the page's <h1>, for those who hear the page
    matrix_title: str  # "Symptoms by device: the first test"
    matrix: Matrix
    changes_title: str = ""  # "Reviewed last"
    changes: tuple[ChangeRow, ...] = ()
    notes: Markup = NO_PROSE  # the house's own note, from `prose`
    foot: tuple[Words, ...] = ()  # the last lines of the sheet


@dataclass(frozen=True, slots=True)
class CauseRow:
    """One cause of a symptom on one device, the likeliest first."""

    cause: str  # "Corroded charge port"
    seen: str  # "seen 14 times"
    share: Share | None  # None where the causes come together and are not ranked
    cures: tuple[Words, ...]  # one line each: a procedure, or "refer: board-level short hunting"


@dataclass(frozen=True, slots=True)
class FirstAction:
    """What to do first about a symptom on one device, and what all of it comes to."""

    do: Words  # "Charge current", ", closed, 2 min"
    expected: str  # "47.07 EUR and 20 min to be expected, cured in 63 %"
    only: Only | None = None  # where variants cost differently


@dataclass(frozen=True, slots=True)
class SymptomDevice:
    """A symptom on one device."""

    device: Link
    anchor: str  # "godwit"
    sheet: Link | None = None  # to the fault isolation sheet, where there is a diagnosis
    firsts: tuple[FirstAction, ...] = ()  # what to do first, for each group of variants that cost alike
    causes: tuple[CauseRow, ...] = ()  # only where there is a diagnosis
    procedures: tuple[ProcedureRow, ...] = ()  # that answer the symptom on this device
    variants: VariantChoice | None = None  # only where there is a choice
    remark: str = ""  # below the causes
    notes: Markup = NO_PROSE  # of the diagnosis, from `prose`


@dataclass(frozen=True, slots=True)
class SymptomView:
    """symptoms/<symptom>.html."""

    shell: Shell
    title: TitleBlock
    says: tuple[str, ...]  # the customers' words, without quotation marks
    asks: tuple[str, ...]  # to be asked at intake
    devices: tuple[SymptomDevice, ...]
    foot: tuple[Words, ...] = ()  # the last lines of the sheet
