"""What the page of one device shows: how to tell it, how to get in, its fasteners, its limits."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.pages.parts import NO_PROSE, Link, Only, ProcedureRow, Shell, TitleBlock, VariantChoice, Words

if TYPE_CHECKING:
    from markupsafe import Markup


@dataclass(frozen=True, slots=True)
class VariantRow:
    """One variant and how to tell it."""

    id: str  # "g1"
    title: str  # "Godwit G1"
    tell_by: str


@dataclass(frozen=True, slots=True)
class AccessNode:
    """One access level, with the levels that start from it."""

    level: str  # "open": the anchor is "level-open"
    title: str  # "Case open, battery isolated"
    note: str = ""  # "6 min in, 8 min out; 3 procedures"
    tools: Words = ()  # links with ", " between
    opening: tuple[str, ...] = ()  # the instructions, in order
    closing: tuple[str, ...] = ()  # the instructions, in order
    only: Only | None = None  # for some variants only
    children: tuple[AccessNode, ...] = ()


@dataclass(frozen=True, slots=True)
class TreeLine:
    """A line of text in a box of the access tree, and its base line in the units of the picture."""

    y: str
    text: str  # "14–16 min"


@dataclass(frozen=True, slots=True)
class TreeBox:
    """One level in the drawing of the access tree: its name first, which is heavy."""

    x: str
    y: str
    width: str
    height: str
    text_x: str
    lines: tuple[TreeLine, ...]


@dataclass(frozen=True, slots=True)
class TreeView:
    """The access tree as a drawing. All numbers are text in the units of `view_box`, a letter being 14 high."""

    view_box: str
    width: str  # "24.3em": where its letters are as high as the page's
    label: str  # what it shows, for those who cannot see it
    caption: str  # what the minutes are
    wide: bool  # too wide for a phone
    boxes: tuple[TreeBox, ...]
    joins: tuple[str, ...]  # "M150 30H163V90H176"


@dataclass(frozen=True, slots=True)
class FastenerRow:
    """One line of the fastener schedule."""

    item: str  # "A": the letter in the plan
    title: str  # "Case screw"
    size: str  # "M1.6 × 5"
    drive: str  # "T4"
    count: str  # "8"
    torque: str  # "7 cN·m", or "by hand"
    into: str = ""  # "brass, 3 mm"
    notes: tuple[str, ...] = ()  # "over the battery", "holes A 2, B 6", why it is set by hand
    line: str = ""  # in the plan: "thin", "dashed", "heavy", "dotted", "double"; "" where it is not there
    only: Only | None = None  # for some variants only


@dataclass(frozen=True, slots=True)
class PlanOutline:
    """A rectangle that stands for the case or the board, in the plan's units."""

    x: str
    y: str
    width: str
    height: str


@dataclass(frozen=True, slots=True)
class PlanHole:
    """One fastener in the plan."""

    x: str
    y: str
    r: str
    line: str  # as in FastenerRow
    item: str  # "A": said to those who cannot see the line style
    letter_x: str = ""  # where the letter stands beside the hole; "" where the line style is its item's alone
    letter_y: str = ""


@dataclass(frozen=True, slots=True)
class PlanLeader:
    """A leader line from a fastener to its letter."""

    x1: str
    y1: str
    x2: str
    y2: str
    item: str  # "A"
    x: str  # where the letter stands
    y: str  # its base line
    note: str = ""  # "over the battery"


@dataclass(frozen=True, slots=True)
class PlanView:
    """The fastener plan. All numbers are text in the units of `view_box`, where one unit is 0.1 mm or so."""

    view_box: str  # "0 0 1180 1300"
    text_size: str  # "36": height of the letters in the same units
    label: str  # what it shows, for those who cannot see it: "8 × A along the edge, 2 × B ..."
    caption: str  # "Seen from the opened side. A thin, B dashed, C heavy."
    outlines: tuple[PlanOutline, ...]
    holes: tuple[PlanHole, ...]
    leaders: tuple[PlanLeader, ...]


@dataclass(frozen=True, slots=True)
class LimitRow:
    """What one part bears."""

    part: str  # "Charge port"
    body: str = ""  # "245 °C"
    joint: str = ""  # "360 °C, 5 s"
    near: str = ""  # "battery 38 mm, window 40 mm"
    kind: str = ""  # the value of data-limit
    only: Only | None = None  # for some variants only


@dataclass(frozen=True, slots=True)
class PartRow:
    """One part, as far as it matters for ordering and fitting."""

    part: str  # "Case seal"
    kind: str  # "seal"
    anchor: str = ""  # "part-case-seal": where the search leads to
    notes: tuple[str, ...] = ()  # "used once", "keeps out IP67", "paired: the calibration belongs to this head (G1)"
    price: str = ""  # "4 EUR"
    lead_time: str = ""  # "3 d"
    only: Only | None = None  # for some variants only


@dataclass(frozen=True, slots=True)
class DeviceView:
    """devices/<device>.html."""

    shell: Shell
    title: TitleBlock
    variants: tuple[VariantRow, ...]
    access: AccessNode  # the root: "closed"
    tree: TreeView | None = None  # the same as a drawing, where something opens
    choice: VariantChoice | None = None  # only where there is more than one variant; drawn with `variants`
    fasteners: tuple[FastenerRow, ...] = ()
    plan: PlanView | None = None
    limits: tuple[LimitRow, ...] = ()
    parts: tuple[PartRow, ...] = ()
    symptoms: tuple[Link, ...] = ()  # what customers say of it
    sheets: tuple[Link, ...] = ()  # its fault isolation sheets
    procedures: tuple[ProcedureRow, ...] = ()
    about: Markup = NO_PROSE  # from `prose`
    foot: tuple[Words, ...] = ()  # the last lines of the sheet
