"""One view in, the text of one page out: all text is escaped, and a misspelt field is an error."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from jinja2 import DictLoader, Environment, FileSystemLoader, StrictUndefined

from benchleaf.pages.glue import glued
from benchleaf.pages.views import (
    BenchView,
    DevicesView,
    DeviceView,
    HomeView,
    IsolationView,
    MaterialsView,
    MaterialView,
    MethodsView,
    ProceduresView,
    ProcedureView,
    RegisterView,
    SymptomView,
    ToolsView,
    View,
)

if TYPE_CHECKING:
    from collections.abc import Mapping

    from jinja2 import BaseLoader

TEMPLATES: dict[type[View], str] = {
    BenchView: "bench/page.html",
    DeviceView: "device/page.html",
    DevicesView: "lists/devices.html",
    HomeView: "home/page.html",
    IsolationView: "diagnosis/page.html",
    MaterialView: "lists/material.html",
    MaterialsView: "lists/materials.html",
    MethodsView: "lists/methods.html",
    ProcedureView: "procedure/page.html",
    ProceduresView: "lists/procedures.html",
    RegisterView: "lists/register.html",
    SymptomView: "symptom/page.html",
    ToolsView: "lists/tools.html",
}


@dataclass(frozen=True, slots=True)
class Drawer:
    """Templates, compiled once, ready to draw any number of views."""

    environment: Environment

    def prepare(self) -> None:
        """Compile all templates now: before the work is shared, so that it is done once for all processes."""
        for name in self.environment.list_templates(extensions=["html"]):
            self.environment.get_template(name)

    def draw(self, view: View) -> str:
        """Return the page's whole HTML text; no number in it parts from its unit."""
        return glued(self.environment.get_template(TEMPLATES[type(view)]).render(view=view))


def drawer(templates: Mapping[str, str] | Path) -> Drawer:
    """Return what draws with these templates: their texts by name, or the folder that holds them."""
    return Drawer(
        Environment(
            loader=_loader(templates),
            autoescape=True,
            undefined=StrictUndefined,
            trim_blocks=True,
            lstrip_blocks=True,
            auto_reload=False,
            cache_size=-1,
        )
    )


def _loader(templates: Mapping[str, str] | Path) -> BaseLoader:
    """Return the loader for texts that are at hand, or for a folder."""
    return FileSystemLoader(templates) if isinstance(templates, Path) else DictLoader(templates)
