"""What every page needs to know of the site that it stands in, and the shell around it."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING
from urllib.parse import quote, urljoin

from benchleaf.derive.lasting import lasting
from benchleaf.derive.numbering import numbered
from benchleaf.derive.outcome import NOT_PERFORMED, Outcome
from benchleaf.derive.usage import Usage, shown, usage
from benchleaf.library.names import BUILT_IN
from benchleaf.model.procedure import ANY_DEVICE
from benchleaf.pages.parts import POLICY, Link, NavItem, Only, Shell, VariantChoice, VariantOption

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from benchleaf.derive.numbering import Numbered
    from benchleaf.findings import Finding
    from benchleaf.model.device import Device
    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.procedure import Procedure
    from benchleaf.model.step import Step
    from benchleaf.model.times import Span
    from benchleaf.model.words import OnlyFor
    from benchleaf.pages.compose.isolation.groups import Group
    from benchleaf.pages.sheet import Row

WORDMARK = "Benchleaf"
SCRIPTS = ("assets/search.js",)
_NAV = (
    ("What the customer says", "index.html", ("symptoms/", "diagnosis/")),
    ("Devices", "devices.html", ("devices/",)),
    ("Procedures", "procedures.html", ("repairs/",)),
    ("Materials", "materials.html", ("materials/",)),
    ("Tools", "tools.html", ()),
    ("Methods", "methods.html", ()),
    ("Rules", "rules/index.html", ("rules/",)),
    ("Register", "register.html", ()),
)


@dataclass(frozen=True, slots=True)
class Options:
    """
    What the settings of a site say.

    `notice` stands at the foot of every page; `edit` is an address in which `{path}` becomes the path of a source below
    the folder `docs`, or ""; `address` is where the site is read, or "": paper leads there.
    `drafts` shows what is not approved; `policy` is the content of the Content-Security-Policy.
    """

    notice: str = ""
    edit: str = ""
    address: str = ""
    docs: str = "procedures"
    drafts: bool = False
    policy: str = POLICY


@dataclass(frozen=True)
class Site:
    """The base, who uses what in it, and the site's options."""

    base: KnowledgeBase
    options: Options = field(default_factory=Options)
    house: str = ""  # the house's note for the first page, as Markdown
    outcomes: Mapping[tuple[str, str], Outcome] = field(default_factory=dict)  # by device and id, as performed
    allowed: tuple[Finding, ...] = ()  # what was found and is accepted, with the reasons
    emergency: str = ""  # the page "Stop and make safe", as Markdown

    @cached_property
    def usage(self) -> Usage:
        """Who uses what among the procedures that have a page."""
        return usage(self.base, drafts=self.options.drafts)

    @cached_property
    def _rows(self) -> dict[tuple[str, str], tuple[Numbered, ...]]:
        return {}

    def rows(self, procedure: Procedure) -> tuple[Numbered, ...]:
        """Return the numbered steps of *procedure*, counted once: its page, the lists and the search all ask."""
        key = (procedure.device, procedure.id)
        if key not in self._rows:
            self._rows[key] = numbered(self.base.devices.get(procedure.device), procedure)
        return self._rows[key]

    def step(self, procedure: Procedure, name: str) -> Step:
        """Return the step of *procedure*, or of its levels, that has the id *name*."""
        return next(row.step for row in self.rows(procedure) if row.step.id == name)

    @cached_property
    def _lasts(self) -> dict[tuple[str, str], tuple[Span, Span]]:
        return {}

    def lasts(self, procedure: Procedure) -> tuple[Span, Span]:
        """Return the hands-on and the waiting time of *procedure*, summed once."""
        key = (procedure.device, procedure.id)
        if key not in self._lasts:
            self._lasts[key] = lasting(self.rows(procedure), self.base.variants_of(procedure))
        return self._lasts[key]

    @cached_property
    def by_device(self) -> dict[str, tuple[Procedure, ...]]:
        """The procedures that have a page, by device."""
        found: dict[str, list[Procedure]] = {}
        for procedure in shown(self.base, drafts=self.options.drafts):
            found.setdefault(procedure.device, []).append(procedure)
        return {device: tuple(own) for device, own in found.items()}

    @cached_property
    def isolated(self) -> dict[tuple[str, str], tuple[Group, ...]]:
        """Diagnoses that were answered, by device and symptom, as `isolation.groups` keeps them."""
        return {}

    @cached_property
    def drawn(self) -> dict[tuple[str, str], Mapping[str, Row]]:
        """The steps of the procedures that were drawn last, by their ids: the sheet and the bench show the same."""
        return {}

    def outcome(self, procedure: Procedure) -> Outcome:
        """Return what is kept of *procedure* as it was performed; nothing where it was not."""
        return self.outcomes.get((procedure.device, procedure.id), NOT_PERFORMED)

    @cached_property
    def shop(self) -> str:
        """The shop's name."""
        return self.base.shop.name if self.base.shop else ""

    @cached_property
    def site_id(self) -> str:
        """A word of a-z, 0-9 and hyphens that tells this site's memory from another's."""
        return re.sub(r"[^a-z0-9]+", "-", self.shop.lower()).strip("-") or "bench"

    def shell(self, path: str, title: str, *, source: str = "", search: str = "head") -> Shell:
        """Return the shell of the page *path*, made from the file *source*."""
        root = "../" * path.count("/")
        below = source.removeprefix(f"{self.options.docs}/")
        edit = Link("Edit this page", _filled(self.options.edit, below)) if source and self.options.edit else None
        return Shell(
            site_name=WORDMARK,
            site_id=self.site_id,
            root=root,
            title=title,
            nav=tuple(NavItem(text, root + href, _current(path, href, below)) for text, href, below in _NAV),
            shop=self.shop,
            invented=self.options.notice,
            edit=edit,
            search=search,
            scripts=SCRIPTS,
            policy=self.options.policy,
        )

    def address(self, path: str) -> str:
        """Return where the page *path* is read, for paper; "" where the site has no address."""
        return urljoin(f"{self.options.address.rstrip('/')}/", quote(path)) if self.options.address else ""

    def material(self, name: str) -> str:
        """Return the title of the material *name*, of the shop or built in."""
        own = self.base.materials.get(name)
        if own:
            return own.title.text
        return BUILT_IN[name].title if name in BUILT_IN else name

    def tool(self, name: str) -> str:
        """Return the title of the tool *name*."""
        tool = self.base.tools.get(name)
        return tool.title.text if tool else name


def _current(path: str, href: str, below: tuple[str, ...]) -> str:
    if path == href:
        return "page"
    return "true" if any(path.startswith(folder) for folder in below) else ""


def _filled(address: str, path: str) -> str:
    """Return *address* with MkDocs' blanks filled: `{path}`, `{path_noext}`, and either with `!q` for a query."""

    def value(blank: re.Match[str]) -> str:
        text = path.rpartition(".")[0] if blank[1] == "path_noext" else path
        return quote(text, safe="") if blank[2] else text

    return re.sub(r"\{(path|path_noext)(!q)?\}", value, address)


def page_of(procedure: Procedure) -> str:
    """Return the path of the page of *procedure* below the site's folder."""
    return f"repairs/{procedure.device}/{procedure.id}.html"


def page_to_work_by(procedure: Procedure) -> str:
    """Return the path of the page by which *procedure* is worked, one step at a time."""
    return f"bench/{procedure.device}/{procedure.id}.html"


def number_of(procedure: Procedure) -> str:
    """Return the number of *procedure* as drawings and registers give it."""
    return f"{procedure.device} / {procedure.id}"


def variant_titles(device: Device | None, names: Iterable[str]) -> str:
    """Return the titles of variants, short: the device's first word stands once."""
    if device is None:
        return ""
    titles = [variant.title.text for variant in device.variants if variant.id in set(names)]
    head = device.title.text.split(" ")[0] + " "
    return ", ".join(title if index == 0 else title.removeprefix(head) for index, title in enumerate(titles))


def only_for(device: Device | None, only: OnlyFor | None) -> Only | None:
    """Return the mark of a thing that exists for some variants only."""
    if only is None or device is None:
        return None
    return only_named(device, [variant.id for variant in device.variants if only.holds(variant.id)])


def only_named(device: Device, names: Sequence[str]) -> Only:
    """Return the mark of what holds for the variants *names*."""
    return Only(" ".join(names), f"{variant_titles(device, names)} only")


def choice(device: Device | None, names: Iterable[str]) -> VariantChoice | None:
    """Return the row of variants to choose from, where there is a choice."""
    wanted = set(names)
    if device is None or len(wanted) < 2:
        return None
    options = tuple(
        VariantOption(variant.id, variant.title.text, variant.tell_by or "")
        for variant in device.variants
        if variant.id in wanted
    )
    return VariantChoice(device.id, options)


def device_title(site: Site, device: str) -> str:
    """Return the title of *device*; procedures for any device have none of their own."""
    if device == ANY_DEVICE:
        return "Any device"
    known = site.base.devices.get(device)
    return known.title.text if known else device
