"""The register: every procedure, what was accepted in it and why, and what nothing is written for."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from benchleaf.derive.told import told
from benchleaf.derive.unanswered import unanswered
from benchleaf.model.review import next_review
from benchleaf.pages.compose.rows import device_link, matrix
from benchleaf.pages.compose.site import Site, device_title, number_of, page_of, variant_titles
from benchleaf.pages.compose.wording import capital
from benchleaf.pages.lists import AllowedFinding, RegisterRow, RegisterView, SharedAllowed, UnansweredRow
from benchleaf.pages.parts import Cell, Link, TitleBlock, words

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from benchleaf.derive.kinds_of_work import Asked
    from benchleaf.findings import Finding
    from benchleaf.model.device import Access, Device
    from benchleaf.model.procedure import Procedure
    from benchleaf.model.step import Step

_ORDER = {"approved": 0, "in-review": 1, "draft": 2, "withdrawn": 3}
_FOOT = (
    words("Safety messages: those of the dry run and an author's own, on the variant that is told most."),
    words("The next review is the last one and the shop's interval. No clock is read: which are late, the day says."),
)


def register_view(site: Site) -> RegisterView:
    """Return the register: every procedure, also those that have no page."""
    known = sorted(site.base.procedures.values(), key=lambda p: (p.device, _ORDER.get(p.status, 9), p.id))
    allowed = _by_file(site.allowed)
    shared = {anchor: one for device in site.base.devices.values() for anchor, one in _shared(site, device, allowed)}
    title = TitleBlock("Register", "Procedure register", (
        Cell("Entries", str(len(known))), Cell("Approved", str(sum(1 for p in known if p.approved))),
    ))  # fmt: skip
    return RegisterView(
        shell=site.shell("register.html", "Procedure register"),
        title=title,
        rows=tuple(_entry(site, procedure, allowed, shared) for procedure in known),
        shared=tuple(shared.values()),
        coverage_title="Symptoms answered, by device",
        coverage=matrix(site, ""),
        unanswered=tuple(_unanswered(site)),
        foot=_FOOT,
    )


def _by_file(allowed: Iterable[Finding]) -> Mapping[str, list[Finding]]:
    found: dict[str, list[Finding]] = defaultdict(list)
    for finding in allowed:
        found[finding.place.path].append(finding)
    return found


def _entry(
    site: Site, procedure: Procedure, allowed: Mapping[str, list[Finding]], shared: Mapping[str, SharedAllowed]
) -> RegisterRow:
    has_page = procedure.approved or (site.options.drafts and procedure.status != "withdrawn")
    device = site.base.devices.get(procedure.device)
    variants = site.base.variants_of(procedure)
    others = [name for name in device.variant_ids if name not in variants] if device else []
    way = device.way_to(procedure.access.text) if device else ()
    numbers = {row.step.id: row.number for row in site.rows(procedure)}
    messages = told(site.rows(procedure), variants, site.outcome(procedure).callouts)
    performed = procedure.status != "withdrawn"
    return RegisterRow(
        number=Link(number_of(procedure), page_of(procedure) if has_page else ""),
        title=procedure.title.text,
        revision=str(procedure.revision),
        status=procedure.status,
        reviewed=procedure.reviewed or "",
        next_review=_next_review(site, procedure),
        variants=variant_titles(device, variants) or device_title(site, procedure.device),
        not_for=variant_titles(device, others),
        level=procedure.access.text,
        work=capital(", ".join(_work(device, one) for one in site.outcome(procedure).work)),
        messages=f"{messages.messages} in {messages.steps} steps" if performed else "",
        most=f"at most {messages.most}, before {messages.where}" if performed and messages.most else "",
        allowed=tuple(
            _allowed(finding, numbers[step.id] if step else "", _some(device, finding, variants))
            for finding, step in _placed(allowed.get(procedure.path, ()), (*procedure.steps, *procedure.prove))
        ),
        shared=tuple(
            Link(f"{len(one.allowed)} in level “{level.id}”", f"#{one.anchor}")
            for level in way if (one := shared.get(_anchor(device, level)))
        ),
    )  # fmt: skip


def _work(device: Device | None, one: Asked) -> str:
    some = f" ({variant_titles(device, one.variants)} only)" if one.variants else ""
    return f"{one.kind[:1].lower()}{one.kind[1:]}{some}"


def _shared(site: Site, device: Device, allowed: Mapping[str, list[Finding]]) -> Iterator[tuple[str, SharedAllowed]]:
    """Yield what is allowed in the opening and closing of each level, which all procedures that need it share."""
    steps = {step.id: (level, phase, number)
             for level in device.access.values()
             for phase, several in (("opening", level.opening), ("closing", level.closing))
             for number, step in enumerate(several, start=1)}  # fmt: skip
    every = [step for level in device.access.values() for step in (*level.opening, *level.closing)]
    found: dict[str, list[AllowedFinding]] = defaultdict(list)
    for finding, step in _placed(allowed.get(device.path, ()), every):
        if step is not None:
            level, phase, number = steps[step.id]
            found[level.id].append(
                _allowed(finding, f"{phase}, step {number}", _some(device, finding, device.variant_ids))
            )
    for name, findings in found.items():
        level = device.access[name]
        anchor = _anchor(device, level)
        yield anchor, SharedAllowed(anchor, device_link(site, device.id, ""), name, level.title.text, tuple(findings))


def _anchor(device: Device | None, level: Access) -> str:
    return f"level-{device.id}-{level.id}" if device else ""


def _placed(findings: Iterable[Finding], steps: Iterable[Step]) -> Iterator[tuple[Finding, Step | None]]:
    """Yield each of *findings* with the step that it lies in: the last that begins before it; None before the first."""
    ordered = sorted(steps, key=lambda step: step.place)
    for finding in findings:
        before = [step for step in ordered if step.place <= finding.place]
        yield finding, before[-1] if before else None


def _allowed(finding: Finding, where: str, only: str) -> AllowedFinding:
    return AllowedFinding(Link(finding.rule, f"rules/{finding.rule}.html"), where, finding.allowed or "", only)


def _some(device: Device | None, finding: Finding, variants: Sequence[str]) -> str:
    """Return the variants on which *finding* holds, where it is not on all of *variants*."""
    some = finding.variants and not set(variants) <= set(finding.variants)
    return variant_titles(device, finding.variants) if some else ""


def _next_review(site: Site, procedure: Procedure) -> str:
    interval = site.base.shop.review_after if site.base.shop else None
    if not procedure.reviewed or interval is None:
        return ""
    day = next_review(procedure.reviewed, interval)
    return day.isoformat() if day else ""


def _unanswered(site: Site) -> Iterator[UnansweredRow]:
    for device in site.base.devices.values():
        found = tuple(unanswered(site.base, site.usage, device))
        whole = [symptom for symptom, left in found if left == device.variant_ids]
        some = [(symptom, left) for symptom, left in found if left != device.variant_ids]
        lines = tuple(words(_symptom(site, symptom), f" on {variant_titles(device, left)}") for symptom, left in some)
        yield UnansweredRow(device_link(site, device.id, ""), tuple(_symptom(site, name) for name in whole), lines)


def _symptom(site: Site, name: str) -> Link:
    return Link(site.base.symptoms[name].title.text, f"symptoms/{name}.html")
