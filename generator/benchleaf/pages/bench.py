"""What the page of one procedure to work by shows: one step at a time, the state beside it, the way out of trouble."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from markupsafe import Markup

    from benchleaf.pages.parts import Banner, Link, Only, Picture, SafetyMessage, Shell, Words
    from benchleaf.pages.sheet import CloseRequirement, Limit


@dataclass(frozen=True, slots=True)
class Answer:
    """One answer to how a device came."""

    value: str  # "sea-water": a word of the format, or a variant
    title: str  # "Sea water"
    note: str = ""  # "Grey lanyard post and no round port on the back."


@dataclass(frozen=True, slots=True)
class Question:
    """One question at the arrival of a device."""

    name: str  # "liquid"
    title: str  # "Has it met liquid?"
    answers: tuple[Answer, ...]


@dataclass(frozen=True, slots=True)
class Asked:
    """What must be true, or what is read, after a step."""

    kind: str  # "look", "reading"
    label: str  # "Look", "Resistance, Multimeter"
    strong: str  # "Each joint is wetted and none is bridged.", "> 10 kΩ"
    notes: tuple[str, ...] = ()  # "means something only with charge 20–70 %"
    unit: str = ""  # "kΩ", for a reading
    way_on: str = ""  # "If not: repeat from W4, then ...": for those without script


@dataclass(frozen=True, slots=True)
class Timed:
    """A time to keep."""

    kind: str  # "wait", "dwell"
    label: str  # "Wait until dry", "Each touch"
    strong: str  # "2 min", "2–3 s"


@dataclass(frozen=True, slots=True)
class Standing:
    """A safety message that began before this step and is still in force."""

    word: str  # "WARNING"
    signal: str  # "warning"
    hazard: str  # "ignition"
    text: str  # what the hazard is, and how to avoid it
    only: Only | None = None


@dataclass(frozen=True, slots=True)
class BenchStep:
    """One step, as large as the bench asks for."""

    step: str  # "tin", or "make-swollen-battery-safe/steps-1": the value of data-step
    anchor: str  # "step-tin"
    phase: str  # "W"
    number: str  # "W4"
    do: str  # the instruction
    elsewhere: str = ""  # the title of the procedure whose step it is, where that is another
    marks: tuple[str, ...] = ()  # "Cannot be undone"
    uses: str = ""  # "with Soldering iron"
    why: str = ""
    records: tuple[str, ...] = ()  # "photo", "note"
    cautions: tuple[SafetyMessage, ...] = ()  # that begin here, in full
    standing: tuple[Standing, ...] = ()  # that began before
    limits: tuple[tuple[str, Limit], ...] = ()  # each with its label: "Torque"
    check: Asked | None = None
    timer: Timed | None = None
    pictures: tuple[Picture, ...] = ()
    after: str = ""  # "Next: W5 Let the port cool."
    state: str = ""  # the state board in words: "Battery: isolated. Power: off."
    only: Only | None = None
    dense: bool = False  # too much for one below the other: the messages stand beside the instruction


@dataclass(frozen=True, slots=True)
class Trouble:
    """One kind of emergency, and what to do."""

    anchor: str  # "stop-1"
    title: str  # "A burn"
    text: Markup


@dataclass(frozen=True, slots=True)
class Emergency:
    """Stop and make safe, whole."""

    lead: Markup
    cases: tuple[Trouble, ...]


@dataclass(frozen=True, slots=True)
class Size:
    """One of the sizes of type to choose from."""

    value: str  # "near"
    text: str  # "0.8 m"


@dataclass(frozen=True, slots=True)
class CauseChoice:
    """A cause that the record may name."""

    value: str  # "no-charge/corroded-port"
    text: str  # "Corroded charge port"


@dataclass(frozen=True, slots=True)
class BenchView:
    """bench/<device>/<procedure>.html."""

    shell: Shell
    device: str  # "godwit"
    procedure: str  # "clean-charge-port"
    number: str  # "godwit / clean-charge-port"
    revision: str  # "4"
    heading: str  # the page's one <h1>
    what: str  # "Godwit field logger"
    read: Link  # the procedure to read
    questions: tuple[Question, ...]
    takes: tuple[Words, ...]  # what it takes in, and where else to go
    steps: tuple[BenchStep, ...]
    close: tuple[CloseRequirement, ...]
    emergency: Emergency
    sizes: tuple[Size, ...]
    scripts: tuple[str, ...]
    way: Markup  # the graph, as JSON
    causes: tuple[CauseChoice, ...] = ()  # of the diagnoses that lead here; none: the cause is written in words
    hands_back: str = ""
    aftercare: tuple[str, ...] = ()
    banner: Banner | None = None
