"""What the lists show: procedures, devices, materials, tools, and the register."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.pages.parts import NO_PROSE, Link, ProcedureRow, SafetyMessage, Shell, TitleBlock, Words

if TYPE_CHECKING:
    from markupsafe import Markup

    from benchleaf.pages.home import Matrix
    from benchleaf.pages.sheet import Need


@dataclass(frozen=True, slots=True)
class DeviceGroup:
    """The procedures of one device, or those for any device."""

    device: Link  # plain words for "Any device"
    anchor: str  # "godwit"
    rows: tuple[ProcedureRow, ...]


@dataclass(frozen=True, slots=True)
class ProceduresView:
    """procedures.html."""

    shell: Shell
    title: TitleBlock
    groups: tuple[DeviceGroup, ...]
    foot: tuple[Words, ...] = ()  # the last lines of the sheet


@dataclass(frozen=True, slots=True)
class DeviceRow:
    """One device in the list of devices."""

    device: Link
    about: str  # one sentence
    variants: str  # "G1, G2"
    battery: str  # "li-ion, 10.7 Wh"
    procedures: str  # "6"


@dataclass(frozen=True, slots=True)
class DevicesView:
    """devices.html."""

    shell: Shell
    title: TitleBlock
    rows: tuple[DeviceRow, ...]
    foot: tuple[Words, ...] = ()  # the last lines of the sheet


@dataclass(frozen=True, slots=True)
class Fact:
    """One property of a material, with where it comes from."""

    label: str  # "Flash point"
    value: str  # "12 °C"
    note: str = ""  # "closed cup"
    source: Words = ()  # the published source


@dataclass(frozen=True, slots=True)
class UseRow:
    """Where a material is used."""

    procedure: Link
    number: str  # "godwit / clean-charge-port"
    amount: str  # "0.5 mL"
    steps: Words = ()  # links to the steps: "W2"


@dataclass(frozen=True, slots=True)
class MaterialView:
    """materials/<material>.html."""

    shell: Shell
    title: TitleBlock
    messages: tuple[SafetyMessage, ...] = ()
    facts: tuple[Fact, ...] = ()
    contains: tuple[Need, ...] = ()  # "Isopropanol", "90 %"
    uses: tuple[UseRow, ...] = ()
    about: Markup = NO_PROSE  # from `prose`
    foot: tuple[Words, ...] = ()  # the last lines of the sheet


@dataclass(frozen=True, slots=True)
class MaterialRow:
    """One material in the list of materials."""

    material: Link
    kind: str  # "solvent"
    origin: str  # "built in" or "of this shop"
    used_by: str  # "3 procedures"


@dataclass(frozen=True, slots=True)
class MaterialsView:
    """materials.html."""

    shell: Shell
    title: TitleBlock
    rows: tuple[MaterialRow, ...]
    foot: tuple[Words, ...] = ()  # the last lines of the sheet


@dataclass(frozen=True, slots=True)
class ToolRow:
    """One tool."""

    anchor: str  # "iron"
    title: str  # "Soldering iron"
    kind: str  # "iron"
    range: str  # "200–450 °C"
    notes: tuple[str, ...] = ()  # "contact 2 mm", "vented, not rated for solvents"
    used_by: tuple[Link, ...] = ()  # procedures, each on its line
    about: Markup = NO_PROSE  # from `prose`


@dataclass(frozen=True, slots=True)
class ToolsView:
    """tools.html."""

    shell: Shell
    title: TitleBlock
    rows: tuple[ToolRow, ...]
    foot: tuple[Words, ...] = ()  # the last lines of the sheet


@dataclass(frozen=True, slots=True)
class Method:
    """A computation: what it gives, how, from whom, where it holds, how far it may be out, and one to redo."""

    anchor: str  # "drying": what a safety message links to
    title: str  # "Drying"
    gives: str  # one sentence
    formula: tuple[str, ...]  # a line each
    symbols: tuple[tuple[str, str], ...]  # "Sh", "Sherwood number of the patch"
    source: str
    holds: str  # its range
    error: str
    example: str  # what goes in
    results: tuple[tuple[str, str], ...]  # "central", "68.4 s"
    number: str = ""  # "7": what a safety message calls it by


@dataclass(frozen=True, slots=True)
class MethodsView:
    """methods.html."""

    shell: Shell
    title: TitleBlock
    methods: tuple[Method, ...]
    own: tuple[Fact, ...] = ()  # the shop's own constants
    foot: tuple[Words, ...] = ()  # the last lines of the sheet


@dataclass(frozen=True, slots=True)
class AllowedFinding:
    """A finding that an author accepted, with the reason."""

    rule: Link
    where: str  # "W2"; "" where it is about the whole procedure
    because: str  # the author's reason
    variants: str = ""  # "G2", where it holds on some variants alone


@dataclass(frozen=True, slots=True)
class SharedAllowed:
    """What was accepted in the opening and closing of a level, which many procedures share."""

    anchor: str  # "level-dunlin-board"
    device: Link
    level: str  # "board"
    title: str  # "Main board out"
    allowed: tuple[AllowedFinding, ...]


@dataclass(frozen=True, slots=True)
class RegisterRow:
    """One procedure in the register."""

    number: Link  # "godwit / clean-charge-port"; plain words where there is no public page
    title: str
    revision: str
    status: str
    reviewed: str = ""  # "2026-09-14"
    next_review: str = ""  # "2027-09-14"
    variants: str = ""  # "G1, G2"
    not_for: str = ""  # "G3": variants of the device that it does not fit
    level: str = ""  # "open"
    work: str = ""  # "Hot-air rework, leak test": the kinds of work that it asks for
    messages: str = ""  # "14 in 32 steps"
    most: str = ""  # "at most 3, before O1"
    allowed: tuple[AllowedFinding, ...] = ()
    shared: tuple[Link, ...] = ()  # "1 in level “board”", to where it stands


@dataclass(frozen=True, slots=True)
class UnansweredRow:
    """The complaints of one device for which nothing is written."""

    device: Link
    symptoms: tuple[Link, ...]  # on none of its variants
    some: tuple[Words, ...] = ()  # "Does not charge", " on G2"


@dataclass(frozen=True, slots=True)
class RegisterView:
    """register.html."""

    shell: Shell
    title: TitleBlock
    rows: tuple[RegisterRow, ...]
    shared: tuple[SharedAllowed, ...] = ()
    coverage_title: str = ""  # "Symptoms answered, by device"
    coverage: Matrix | None = None
    unanswered: tuple[UnansweredRow, ...] = ()
    foot: tuple[Words, ...] = ()  # the last lines of the sheet
