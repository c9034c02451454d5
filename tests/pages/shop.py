"""The sample shop: what stands around its pages, its variants, its list of procedures."""

from __future__ import annotations

from benchleaf.pages.views import (
    Link,
    NavItem,
    Only,
    ProcedureRow,
    Shell,
    VariantChoice,
    VariantOption,
    words,
)

NASTY = '<2 N·m & "x"'
PLACES = (
    ("What the customer says", "index.html"),
    ("Devices", "devices.html"),
    ("Procedures", "procedures.html"),
    ("Materials", "materials.html"),
    ("Tools", "tools.html"),
    ("Rules", "rules/index.html"),
    ("Register", "register.html"),
)
G1 = VariantOption("g1", "Godwit G1", "Grey lanyard post and no round port on the back.")
G2 = VariantOption("g2", "Godwit G2", "Black lanyard post and a round port on the back.")
CHOICE = VariantChoice("godwit", (G1, G2))
ONLY_G2 = Only("g2", "Godwit G2 only")
LOCAL = words("Estimates carry their range; a measurement beats them.")


def shell(root: str, title: str, here: str, *, search: str = "head") -> Shell:
    """Return what stands around a page of the sample shop."""
    return Shell(
        site_name="Benchleaf",
        site_id="saltmarsh",
        root=root,
        title=title,
        nav=tuple(NavItem(text, root + href, "true" if text == here else "") for text, href in PLACES),
        shop="Saltmarsh Instrument Bench",
        invented="Saltmarsh Instrument Bench, its devices and all data are invented for demonstration.",
        edit=Link("Change this page’s source", "https://example.org/edit/godwit.yml"),
        search=search,
        scripts=("assets/search.js",),
    )


def _procedure_row(title: str, name: str, hands_on: str, *, only: Only | None = None) -> ProcedureRow:
    return ProcedureRow(
        procedure=Link(title, f"../repairs/godwit/{name}.html"),
        number=f"godwit / {name}",
        level="open",
        hands_on=hands_on,
        waiting="5 min",
        revision="4",
        variants="G1, G2",
        fixes=words(Link("Does not charge", "../symptoms/no-charge.html")),
        only=only,
    )


ROWS = (
    _procedure_row("Clean and re-tin a corroded charge port", "clean-charge-port", "18–24 min"),
    _procedure_row("Replace the charge port", "replace-charge-port", "27–39 min"),
    _procedure_row("Replace the round port", "replace-round-port", "20–30 min", only=ONLY_G2),
)
