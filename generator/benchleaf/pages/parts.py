"""The parts that several kinds of page share. Strings only, already formatted; "" and () mean that there is nothing."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; "
    "connect-src 'none'; base-uri 'none'; form-action 'none'"
)
POLICY_IN_PREVIEW = POLICY.replace("connect-src 'none'", "connect-src 'self'")
"""Our own preview's: its pages ask for news of themselves, and run nothing inline."""
# MkDocs' development server writes its reload script into each page and asks itself for news.
POLICY_WHILE_SERVING = (
    "default-src 'none'; script-src 'self' 'unsafe-inline'; style-src 'self'; img-src 'self' data:; "
    "connect-src 'self'; base-uri 'none'; form-action 'none'"
)

NO_PROSE = Markup("")  # where the author wrote none


@dataclass(frozen=True, slots=True)
class Link:
    """Words that lead somewhere, or plain words when `href` is empty."""

    text: str  # the words
    href: str = ""  # relative to the page that shows it, or "" for plain words


Words = tuple[Link, ...]  # one line of text in which some words are links; build it with `words`


def words(*pieces: str | Link) -> Words:
    """Return a line made of plain words and links: `words("If not: ", Link("W4", "#step-tin"))`."""
    return tuple(Link(piece) if isinstance(piece, str) else piece for piece in pieces)


@dataclass(frozen=True, slots=True)
class Only:
    """Something that exists for some variants only."""

    variants: str  # "g1 g2": ids joined by spaces, the value of data-variant
    text: str  # "G1 and G2 only": what the reader sees


@dataclass(frozen=True, slots=True)
class NavItem:
    """One place in the header."""

    text: str  # "Devices"
    href: str  # relative to the page
    current: str = ""  # "page" on that very page, "true" on a page below it, else ""


@dataclass(frozen=True, slots=True)
class Shell:
    """What stands around every page. Markdown pages get one too, as `benchleaf` in their template's context."""

    site_name: str  # "Benchleaf": the wordmark
    site_id: str  # "saltmarsh": prefix of all that the browser remembers; a word of a-z, 0-9 and hyphens
    root: str  # "" or "../" or "../../": from this page to the site's folder
    title: str  # text of <title>, without the site's name
    nav: tuple[NavItem, ...]  # the header's places, in order
    shop: str  # "Saltmarsh Instrument Bench"
    invented: str = ""  # the notice that all data is invented
    edit: Link | None = None  # to the source of this page
    search: str = "head"  # "head": field in the header; "home": the page has its own; "": none
    scripts: tuple[str, ...] = ()  # classic scripts that every page loads, below the site's folder: "assets/search.js"
    policy: str = POLICY  # content of the Content-Security-Policy


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell of a title block."""

    label: str  # "Hands on"
    value: str  # "18–24 min"
    note: str = ""  # "12 min of it opening and closing": smaller, below
    href: str = ""  # makes the value a link


@dataclass(frozen=True, slots=True)
class TitleBlock:
    """The head of a sheet, as on a drawing."""

    kind: str  # "Procedure"
    heading: str  # the page's one <h1>
    cells: tuple[Cell, ...]  # eight fill two rows; more or fewer fold
    lead: str = ""  # one sentence below the heading


@dataclass(frozen=True, slots=True)
class Banner:
    """What a reader must know before anything else: a draft, a withdrawn procedure."""

    status: str  # "draft", "in-review", "withdrawn": the value of data-status
    word: str  # "Draft"
    text: str  # "Not approved: not on the public site."


@dataclass(frozen=True, slots=True)
class SafetyMessage:
    """A hazard, what it does, how to keep clear of it. It stands before the step where the hazard begins."""

    hazard: str  # "ignition": the value of data-callout
    word: str  # "WARNING"; where no signal word is known, the hazard's word: "Ignition"
    symbol: str  # name of a drawing in site_overrides/symbols/, which has one for each hazard: "ignition"
    what: str  # "Isopropanol vapour and a 350 °C iron.", or the author's whole text
    signal: str = ""  # "danger", "warning", "caution", "notice": the value of data-signal; "" when not known
    happens: str = ""  # "A port that is still wet can flash and burn your hands and face."
    avoid: str = ""  # "Wait the full 2 minutes of W3."
    computed: Link | None = None  # "Method 7"
    only: Only | None = None  # for some variants only


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture, below the instruction that it shows."""

    src: str  # relative to the page
    alt: str  # what is to be seen in it
    caption: str = ""  # words below it
    width: str = ""  # "800": in pixels, so that the page does not jump; with `height` or not at all
    height: str = ""  # "600"


@dataclass(frozen=True, slots=True)
class VariantOption:
    """One variant that a reader can choose."""

    id: str  # "g1"
    title: str  # "Godwit G1"
    tell_by: str  # "Grey lanyard post and no round port on the back."


@dataclass(frozen=True, slots=True)
class VariantChoice:
    """The row of variants; a reader's choice is remembered for the device. Leave it out where there is one variant."""

    device: str  # "godwit": the choice is remembered under this name
    options: tuple[VariantOption, ...]


@dataclass(frozen=True, slots=True)
class ProcedureRow:
    """One procedure in a list."""

    procedure: Link  # its title
    number: str  # "godwit / clean-charge-port"
    level: str  # "open"
    hands_on: str  # "18–24 min"
    waiting: str  # "5 min"
    revision: str  # "4"
    status: str = "approved"  # shown where it is not "approved"
    variants: str = ""  # "G1, G2": for which it is approved
    fixes: Words = ()  # the symptoms that it answers
    only: Only | None = None  # for some variants only


@dataclass(frozen=True, slots=True)
class Share:
    """A part of the whole, in words and as a bar."""

    text: str  # "58 %"
    width: str  # "58": 0 to 100, the bar's length
    range: str = ""  # "38–76 %"
    low: str = ""  # "38": where the interval begins, drawn below the bar
    high: str = ""  # "76"
