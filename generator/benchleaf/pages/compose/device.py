"""The page of one device, and the list of devices."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.derive.lasting import lasting
from benchleaf.derive.numbering import Numbered, items
from benchleaf.derive.usage import answers
from benchleaf.model.device import CLOSED
from benchleaf.model.words import applies
from benchleaf.pages.compose.isolation.paths import path_of
from benchleaf.pages.compose.limits import Limits
from benchleaf.pages.compose.plan import LINES, plan
from benchleaf.pages.compose.rows import joined, procedure_row
from benchleaf.pages.compose.site import Site, choice, only_for, variant_titles
from benchleaf.pages.compose.tree import tree, working_at
from benchleaf.pages.device import AccessNode, DeviceView, FastenerRow, LimitRow, PartRow, VariantRow
from benchleaf.pages.lists import DeviceRow, DevicesView
from benchleaf.pages.parts import Cell, Link, TitleBlock
from benchleaf.pages.prose import prose
from benchleaf.units import show

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.model.device import Access, Device, Fastener, Part
    from benchleaf.model.step import Step

_JOULES_PER_WH = 3600.0


def device_view(site: Site, device: Device) -> DeviceView:
    """Return the page of *device*, complete for all its variants."""
    path = f"devices/{device.id}.html"
    root = "../"
    letters = items(device)
    limits = Limits(site, device, letters, root)
    lines = {name: LINES[index % len(LINES)] for index, name in enumerate(device.plan.at)} if device.plan else {}
    symptoms = [symptom for symptom in site.base.symptoms.values() if answers(site.usage, symptom.id, device.id)]
    return DeviceView(
        shell=site.shell(path, device.title.text, source=device.path),
        title=_title(site, device),
        variants=tuple(VariantRow(v.id, v.title.text, v.tell_by or "") for v in device.variants),
        access=_closed(site, device, root),
        tree=tree(site, device),
        choice=choice(device, device.variant_ids),
        fasteners=tuple(_fastener(device, fastener, letters, limits, lines) for fastener in device.fasteners.values()),
        plan=plan(device, letters, lines, limits),
        limits=tuple(_limit(device, part, limits) for part in device.parts.values()
                     if part.heat_limit or part.joint_limit or part.near),
        parts=tuple(_part(device, part) for part in device.parts.values()),
        symptoms=tuple(Link(said.title.text, f"{root}symptoms/{said.id}.html#{device.id}") for said in symptoms),
        sheets=tuple(Link(said.title.text, root + path_of(site.base.diagnoses[device.id, said.id])) for said in symptoms
                     if (device.id, said.id) in site.base.diagnoses),
        procedures=tuple(procedure_row(site, procedure, root) for procedure in site.usage.by_device.get(device.id, ())),
        about=prose(device.about or ""),
    )  # fmt: skip


def devices_view(site: Site) -> DevicesView:
    """Return the list of devices."""
    return DevicesView(
        shell=site.shell("devices.html", "Devices"),
        title=TitleBlock("List", "Devices", (Cell("Devices", str(len(site.base.devices))),)),
        rows=tuple(
            DeviceRow(
                Link(device.title.text, f"devices/{device.id}.html"),
                (device.about or "").split("\n")[0],
                variant_titles(device, device.variant_ids),
                _battery(device),
                str(len(site.usage.by_device.get(device.id, ()))),
            )
            for device in site.base.devices.values()
        ),
    )


def _title(site: Site, device: Device) -> TitleBlock:
    screws = " + ".join(str(fastener.count) for fastener in device.fasteners.values())
    rating = [part.keeps_out for part in device.parts.values() if part.keeps_out]
    board = device.board
    facts = [show.tidy(board.thickness.text)] if board and board.thickness else []
    facts += [site.material(board.solder.text).split(",")[0]] if board and board.solder else []
    cells = (
        Cell("Variants", variant_titles(device, device.variant_ids)),
        Cell("Battery", _battery(device)),
        Cell("Board", ", ".join(facts) or "not given"),
        Cell("Keeps out", f"{', '.join(dict.fromkeys(rating))}, until opened" if rating else "nothing rated"),
        Cell("Levels", ", ".join([CLOSED, *device.access])),
        Cell("Screws", screws or "none"),
        Cell("Procedures", f"{sum(1 for known in site.usage.by_device.get(device.id, ()) if known.approved)} approved"),
        Cell("Price new", show.tidy(device.price.text) if device.price else "not given"),
    )
    return TitleBlock("Device", device.title.text, cells)


def _battery(device: Device) -> str:
    said = []
    for battery in device.batteries.values():
        energy = battery.energy
        cells = f"{battery.cells} cell" if battery.cells == 1 else f"{battery.cells} cells"
        nominal = f", {energy / _JOULES_PER_WH:.1f} Wh" if energy else ""
        named = f"{battery.title}: " if battery.title else ""
        soldered = ", soldered in" if battery.soldered else ""
        said.append(f"{named}{battery.chemistry}, {cells}{nominal}{soldered}")
    return "; ".join(dict.fromkeys(said)) or "none"


def _closed(site: Site, device: Device, root: str) -> AccessNode:
    procedures = working_at(site, device)[CLOSED]
    return AccessNode(CLOSED, "Nothing opened", procedures, children=tuple(_levels(site, device, CLOSED, root)))


def _levels(site: Site, device: Device, parent: str, root: str) -> Iterator[AccessNode]:
    for level in device.access.values():
        if level.parent.text == parent:
            yield _level(site, device, level, root)


def _level(site: Site, device: Device, level: Access, root: str) -> AccessNode:
    times, told = [], []
    for steps in (level.opening, level.closing):
        rows = [Numbered("", "", level, step) for step in steps]
        hands, waiting = lasting(rows, [name for name in device.variant_ids if applies(level.only, name)])
        both = hands + waiting
        times.append(show.interval(both.low, both.high))
        told.append(tuple(_told(device, step) for step in steps))
    return AccessNode(
        level=level.id,
        title=level.title.text,
        note=f"{times[0]} in, {times[1]} out; {working_at(site, device)[level.id]}",
        tools=joined(Link(site.tool(tool.text), f"{root}tools.html#tool-{tool}") for tool in level.tools),
        opening=told[0],
        closing=told[1],
        only=only_for(device, level.only),
        children=tuple(_levels(site, device, level.id, root)),
    )


def _told(device: Device, step: Step) -> str:
    only = only_for(device, step.only)
    return f"{step.do} ({only.text})" if only else step.do.text


def _fastener(
    device: Device, fastener: Fastener, letters: dict[str, str], limits: Limits, lines: dict[str, str]
) -> FastenerRow:
    notes = [f"over the {fastener.under}"] if fastener.under else []
    if fastener.length is None:
        notes.append("length not given")
    if fastener.holes:
        notes.append("holes " + ", ".join(f"{hole} {count}" for hole, count in fastener.holes.items()))
    notes += [word for on, word in ((fastener.captive, "captive"), (fastener.optional, "may be absent")) if on]
    notes += [fastener.because] if fastener.because else []
    into = [fastener.into.text] if fastener.into else []
    into += [show.tidy(fastener.engagement.text)] if fastener.engagement else []
    return FastenerRow(
        item=letters[fastener.id],
        title=fastener.title.text,
        size=limits.size(fastener),
        drive=fastener.drive or "",
        count=str(fastener.count),
        torque=limits.torque(fastener),
        into=", ".join(into),
        notes=tuple(notes),
        line=lines.get(fastener.id, ""),
        only=only_for(device, fastener.only),
    )


def _limit(device: Device, part: Part, limits: Limits) -> LimitRow:
    near = []
    for neighbour in part.near or ():
        known = device.parts.get(neighbour.part.text)
        name = known.title.text if known else neighbour.part.text
        via = "" if neighbour.via == "board" else f" ({neighbour.via.replace('-', ' ')})"
        near.append(f"{name} {show.tidy(neighbour.distance.text) if neighbour.distance else ''}{via}".strip())
    return LimitRow(
        part=part.title.text,
        body=limits.bears(part.heat_limit) if part.heat_limit else "",
        joint=limits.bears(part.joint_limit) if part.joint_limit else "",
        near=", ".join(near),
        kind="joint" if part.joint_limit else "heat",
        only=only_for(device, part.only),
    )


def _part(device: Device, part: Part) -> PartRow:
    notes = (
        [f"part of {device.parts[part.part_of.text].title}"]
        if part.part_of and part.part_of.text in device.parts
        else []
    )
    notes += [word for on, word in (
        (part.single_use, "used once"), (not part.keyed, "can be fitted the wrong way round"),
        (part.no_bath, "bears no bath"), (part.traps_liquid, "traps liquid"),
    ) if on]  # fmt: skip
    notes += [f"keeps out {part.keeps_out}"] if part.keeps_out else []
    if part.stores:
        notes.append(f"stores {show.tidy(part.stores.capacitance.text)} at {show.tidy(part.stores.voltage.text)}")
    notes += [f"paired, {variant_titles(device, [variant])}: {why}" for variant, why in part.paired.items()]
    return PartRow(
        part=part.title.text,
        kind=part.kind.replace("-", " "),
        anchor=f"part-{part.id}",
        notes=tuple(notes),
        price=show.tidy(part.price.text) if part.price else "",
        lead_time=show.tidy(part.lead_time.text) if part.lead_time else "",
        only=only_for(device, part.only),
    )
