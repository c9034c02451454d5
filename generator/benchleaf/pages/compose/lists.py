"""The lists: procedures, materials, tools."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.derive.needs import steps_that_use
from benchleaf.library.names import BUILT_IN
from benchleaf.model.procedure import ANY_DEVICE
from benchleaf.pages.compose import substance
from benchleaf.pages.compose.rows import device_link, joined, procedure_row
from benchleaf.pages.compose.site import Site, number_of, page_of
from benchleaf.pages.lists import (
    DeviceGroup,
    Fact,
    MaterialRow,
    MaterialsView,
    MaterialView,
    ProceduresView,
    ToolRow,
    ToolsView,
    UseRow,
)
from benchleaf.pages.parts import Cell, Link, TitleBlock
from benchleaf.pages.prose import prose
from benchleaf.pages.sheet import Need
from benchleaf.units import show

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.model.procedure import Procedure
    from benchleaf.model.shop import Tool


def procedures_view(site: Site) -> ProceduresView:
    """Return the list of procedures by device."""
    groups = []
    for device in [*site.base.devices, ANY_DEVICE]:
        found = site.usage.by_device.get(device, ())
        if found:
            rows = tuple(procedure_row(site, procedure, "") for procedure in found)
            groups.append(DeviceGroup(device_link(site, device, ""), device, rows))
    count = sum(len(group.rows) for group in groups)
    title = TitleBlock(
        "List", "Procedures", (Cell("Procedures", str(count)), Cell("Devices", str(len(site.base.devices))))
    )
    return ProceduresView(site.shell("procedures.html", "Procedures"), title, tuple(groups))


def material_names(site: Site) -> tuple[str, ...]:
    """Return the materials that have a page: the shop's own, and built-in ones that a procedure or a material uses."""
    own = list(site.base.materials)
    inside = [name for material in site.base.materials.values() for name in material.contains]
    alloys = [material.alloy.text for material in site.base.materials.values() if material.alloy]
    called_for = [name for name in (*site.usage.by_material, *inside, *alloys) if name in BUILT_IN]
    return tuple(dict.fromkeys([*own, *sorted(called_for)]))


def materials_view(site: Site) -> MaterialsView:
    """Return the list of materials."""
    rows = []
    for name in material_names(site):
        own = site.base.materials.get(name)
        count = len(site.usage.by_material.get(name, ()))
        kind = own.kind if own else BUILT_IN[name].kind
        rows.append(MaterialRow(Link(site.material(name), f"materials/{name}.html"), kind,
                                "of this shop" if own else "built in",
                                f"{count} procedure{'' if count == 1 else 's'}"))  # fmt: skip
    title = TitleBlock("List", "Materials", (Cell("Materials", str(len(rows))),))
    return MaterialsView(site.shell("materials.html", "Materials"), title, tuple(rows))


def material_view(site: Site, name: str) -> MaterialView:
    """Return the page of one material: what the shop says of it and where it is used."""
    own, built_in = site.base.materials.get(name), BUILT_IN.get(name)
    kind = own.kind if own else built_in.kind if built_in else ""
    path = f"materials/{name}.html"
    facts = []
    if own:
        facts += [Fact(label, show.tidy(value.text)) for label, value in (
            ("Handling strength after", own.fixture), ("Full strength after", own.full),
            ("The shop's exposure limit", own.exposure_limit), ("Price", own.price)) if value]  # fmt: skip
        facts += [Fact("Alloy", site.material(own.alloy.text))] if own.alloy else []
    facts += substance.facts(name)
    contains = tuple(
        Need(site.material(part), show.tidy(share.text), f"{part}.html")
        for part, share in (own.contains.items() if own else ())
    )
    return MaterialView(
        shell=site.shell(path, site.material(name), source=f"{site.options.docs}/materials.yml" if own else ""),
        title=TitleBlock("Material", site.material(name), (
            Cell("Name in procedures", name), Cell("Kind", kind),
            Cell("Kept by", "this shop" if own else "built-in library"),
        )),
        messages=tuple(substance.messages(name)),
        facts=tuple(facts),
        contains=contains,
        uses=tuple(_use(site, name, procedure) for procedure in site.usage.by_material.get(name, ())),
        about=prose((own.notes if own else "") or ""),
    )  # fmt: skip


def _use(site: Site, name: str, procedure: Procedure) -> UseRow:
    page = "../" + page_of(procedure)
    rows = site.rows(procedure)
    listed = next((entry.amount.text for entry in procedure.materials if entry.material.text == name), "not listed")
    steps = joined(Link(row.number, f"{page}#step-{row.step.id}") for row in steps_that_use(rows, name))
    return UseRow(Link(procedure.title.text, page), number_of(procedure), show.tidy(listed), steps)


def tools_view(site: Site) -> ToolsView:
    """Return the list of tools."""
    rows = tuple(_tool(site, tool) for tool in site.base.tools.values())
    title = TitleBlock("List", "Tools", (Cell("Tools", str(len(rows))),))
    shell = site.shell("tools.html", "Tools", source=f"{site.options.docs}/tools.yml" if site.base.tools else "")
    return ToolsView(shell, title, rows)


def _tool(site: Site, tool: Tool) -> ToolRow:
    return ToolRow(
        anchor=f"tool-{tool.id}",
        title=tool.title.text,
        kind=tool.kind.replace("-", " "),
        range=show.tidy(tool.range.text) if tool.range else "",
        notes=tuple(_tool_notes(tool)),
        used_by=tuple(_user(site, p) for p in site.usage.by_tool.get(tool.id, ())),
        about=prose(tool.notes or ""),
    )


def _user(site: Site, procedure: Procedure) -> Link:
    device = site.base.devices.get(procedure.device)
    belongs = f", {device.title.text.split(' ')[0]}" if device else ""
    return Link(f"{procedure.title}{belongs}", page_of(procedure))


def _tool_notes(tool: Tool) -> Iterator[str]:
    if tool.resolution:
        yield f"in steps of {show.tidy(tool.resolution.text)}"
    if tool.contact:
        yield f"contact {show.tidy(tool.contact.text)}"
    if tool.drives:
        yield "drives " + ", ".join(tool.drives)
    for what, reach in tool.measures.items():
        yield f"{what} {show.tidy(reach.text)}"
    if tool.vented is not None:
        yield "vented" if tool.vented else "not vented"
    if tool.rated_for_solvents is not None:
        yield "rated for solvents" if tool.rated_for_solvents else "not rated for solvents"
    if tool.conductive is not None:
        yield "conductive" if tool.conductive else "does not conduct"
