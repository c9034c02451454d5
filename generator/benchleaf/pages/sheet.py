"""What the page of one procedure shows: requirements, the ruled sheet of steps, what must be true at the end."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.pages.parts import (
    NO_PROSE,
    Banner,
    Only,
    Picture,
    SafetyMessage,
    Shell,
    TitleBlock,
    VariantChoice,
    Words,
)

if TYPE_CHECKING:
    from markupsafe import Markup


@dataclass(frozen=True, slots=True)
class Need:
    """One line of the preliminary requirements."""

    text: str  # "Soldering iron"
    note: str = ""  # "350 °C", "2 mL", "1, always renewed", "before W4"
    href: str = ""  # makes the text a link
    strong: str = ""  # before the text, heavy: a signal word
    only: Only | None = None  # for some variants only


@dataclass(frozen=True, slots=True)
class Needs:
    """The preliminary requirements, in five columns and a row."""

    conditions: tuple[Need, ...] = ()  # "Wrist strap and mat", "Battery 20–70 %", consent to be had
    equipment: tuple[Need, ...] = ()  # with set points
    supplies: tuple[Need, ...] = ()  # with amounts
    spares: tuple[Need, ...] = ()  # with counts
    safety: tuple[Need, ...] = ()  # the safety messages of all steps, gathered
    work: tuple[Need, ...] = ()  # below them, in a row: the kinds of work that it asks for, with their steps


@dataclass(frozen=True, slots=True)
class Limit:
    """A number to keep, in the second column."""

    strong: str  # "350 °C, 2–3 s"
    kind: str = ""  # "joint", "heat", "torque": the value of data-limit
    notes: tuple[Words, ...] = ()  # smaller lines: "9 times, 4 s apart", "written 0.07 N·m"


@dataclass(frozen=True, slots=True)
class Check:
    """What must be true to go on, and the way on when it is not. It stands in the second column, after the limits."""

    kind: str  # "look", "measure", "gone", "battery", "leak": the value of data-check
    strong: str  # "> 10 kΩ", "Every pad is still on the board."
    notes: tuple[Words, ...] = ()  # "resistance, multimeter", "with a charge of 20–70 %"
    way_on: Words = ()  # words("If not: repeat from ", Link("W4", "#step-tin"), ", then ", Link(...))
    reading: bool = False  # whether a number is written down: paper has a line for it


@dataclass(frozen=True, slots=True)
class State:
    """What is true after the step, in the third column: `lead`, heavy `strong`, `tail` in one line."""

    strong: str  # "8 of 8 T4", "wet", "Battery isolated"
    lead: str = ""  # "Tray: ", with its space
    tail: str = ""  # ", flammable"
    notes: tuple[Words, ...] = ()  # "bench air 5 % of the limit"


@dataclass(frozen=True, slots=True)
class Data:
    """A hook for scripts and tests: data-<name>="<value>" on a row."""

    name: str  # "record": a-z and hyphens
    value: str  # "photo"


@dataclass(frozen=True, slots=True)
class Tick:
    """A number at an axis of a picture, and where it stands, in the units of the picture."""

    text: str  # "50"
    at: str


@dataclass(frozen=True, slots=True)
class HeatBar:
    """What is beside a heated part: from how hot to how hot it gets, and what it bears, as a bar and as words."""

    number: str  # "1": beside the bar and before the words
    name: str  # "Battery"
    words: str  # "38 mm along the board: 23–50 °C; bears 60 °C"
    kind: str  # "air" for a broken line, "" for a whole one
    x: str
    top: str
    bottom: str
    limit: str = ""  # where the tick of the limit stands, or "" where nobody says
    left: str = ""  # the ends of that tick
    right: str = ""
    label: str = ""  # where the number stands: above the bar and the tick
    way: str = ""  # "through air", beside the bar: how heat gets there where not along the board
    way_x: str = ""  # where that stands, and round what it is turned
    way_y: str = ""


@dataclass(frozen=True, slots=True)
class HeatView:
    """How hot it gets beside what a step heats. All numbers are text in the units of `view_box`."""

    view_box: str
    label: str  # what it shows, for those who cannot see it
    left: str  # the frame of the axes
    right: str
    top: str
    bottom: str
    unit: str  # "°C", above the axis of temperatures
    across: str  # "mm from Charge port", below the axis of distances
    across_at: str  # where its base line is
    degrees: tuple[Tick, ...]
    distances: tuple[Tick, ...]
    bars: tuple[HeatBar, ...]
    curve: str = ""  # "60,20 110,80": the board at the bad end; "" where no board lies between
    caption: str = ""  # what line, bar and tick are
    only: Only | None = None  # for some variants only


@dataclass(frozen=True, slots=True)
class Row:
    """One step."""

    number: str  # "W4": the phase's letter and a count
    step: str  # "tin": the value of data-step; the row's anchor is "step-tin"
    do: str  # the instruction
    why: str = ""  # the reason, below it
    uses: Words = ()  # "with ", the tools of this step
    record: str = ""  # "Photograph it." or "Note the reading.": below the instruction
    marks: tuple[str, ...] = ()  # short words before the instruction: "Cannot be undone"
    cautions: tuple[SafetyMessage, ...] = ()  # before the step
    limits: tuple[Limit, ...] = ()  # second column
    check: Check | None = None  # second column
    after: tuple[State, ...] = ()  # third column
    pictures: tuple[Picture, ...] = ()  # below the instruction
    heat: tuple[HeatView, ...] = ()  # below them; one for each group of variants that it is alike for
    only: Only | None = None  # for some variants only
    data: tuple[Data, ...] = ()  # further hooks


@dataclass(frozen=True, slots=True)
class Phase:
    """One of open up, work, close up, prove."""

    letter: str  # "O"
    title: str  # "Open up, to level “open”"
    rows: tuple[Row, ...]
    note: str = ""  # "6 min, shared with other procedures of one job"


@dataclass(frozen=True, slots=True)
class Sheet:
    """The ruled sheet."""

    phases: tuple[Phase, ...]


@dataclass(frozen=True, slots=True)
class Code:
    """The square code that leads from the paper back to the page."""

    address: str  # what it says, in letters below it
    side: str  # of the view box, in modules, with the white around it
    path: str  # the dark modules


@dataclass(frozen=True, slots=True)
class Bar:
    """A stretch of a lane, in the units of the picture."""

    x: str
    y: str
    width: str
    height: str


@dataclass(frozen=True, slots=True)
class Lane:
    """One state through the whole procedure: its bars, and the same in words for the table below."""

    label: str  # "Battery joined"
    y: str  # where the label stands
    base: str  # the line below the bars
    bars: tuple[Bar, ...]
    words: str  # "O1–O4, C2–P1"; "never"
    limit: str = ""  # where the line of a limit stands


@dataclass(frozen=True, slots=True)
class Mark:
    """A letter of a phase over the lanes, and where the phase begins."""

    text: str  # "W"
    x: str
    line: str


@dataclass(frozen=True, slots=True)
class TimelineView:
    """What is joined, live, wet, hot and in the air, step by step."""

    view_box: str
    left: str  # where the bars begin
    right: str
    bottom: str
    label: str  # what it shows, for those who cannot see it
    lanes: tuple[Lane, ...]
    marks: tuple[Mark, ...]
    only: Only | None = None  # for some variants only


@dataclass(frozen=True, slots=True)
class CloseRequirement:
    """Something to be counted back before the device leaves the bench."""

    text: str  # "Case screws back"
    count: str  # "8 of 8"
    note: str = ""  # "item A, M1.6 × 5"
    only: Only | None = None  # for some variants only


@dataclass(frozen=True, slots=True)
class ProcedureView:
    """repairs/<device>/<procedure>.html."""

    shell: Shell
    title: TitleBlock
    needs: Needs
    sheet: Sheet
    running: str  # "godwit / clean-charge-port · revision 4 · 2026-09-14": at the head of each printed sheet
    code: Code | None = None  # only where the site has an address
    close: tuple[CloseRequirement, ...] = ()  # empty where nothing was opened
    bench: str = ""  # the page to work by, relative to this one; "" where there is none
    banner: Banner | None = None  # only where it is not approved
    variants: VariantChoice | None = None  # only where there is a choice
    timelines: tuple[TimelineView, ...] = ()  # one for each group of variants that goes alike
    fixes: Words = ()  # the symptoms it answers, as links with ", " between
    arrives: tuple[str, ...] = ()  # "Battery sound", where the procedure asks for more than the usual
    consent: tuple[str, ...] = ()  # "The seal's rating is lost."
    aftercare: tuple[str, ...] = ()  # for the owner
    hands_back: str = ""  # what is not handed back, and why
    notes: Markup = NO_PROSE  # from `prose`
    foot: tuple[Words, ...] = ()  # the last lines of the sheet
