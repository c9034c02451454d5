"""The fault isolation sheet of one diagnosis: all rows, the causes, what to do next and why, the whole plan."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from benchleaf.decisions.diagnose import ARRIVED, ranked
from benchleaf.decisions.pose import titled
from benchleaf.decisions.reason import percent
from benchleaf.model.diagnosis import Referral
from benchleaf.pages.compose.isolation import wording
from benchleaf.pages.compose.isolation.actions import actions, named, repairs
from benchleaf.pages.compose.isolation.data import data
from benchleaf.pages.compose.isolation.groups import groups
from benchleaf.pages.compose.isolation.paths import path_of
from benchleaf.pages.compose.isolation.tree import lines
from benchleaf.pages.compose.rows import cure_line
from benchleaf.pages.compose.site import Site, choice, only_for, variant_titles
from benchleaf.pages.compose.wording import capital, held
from benchleaf.pages.isolation import ArrivedRow, IsolationView, Option, PlanGroup, SuspectRow, TestRow
from benchleaf.pages.parts import Cell, Link, TitleBlock, words
from benchleaf.pages.prose import prose
from benchleaf.units import show

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.decisions.plan import Plan
    from benchleaf.model.diagnosis import Diagnosis, Test
    from benchleaf.pages.compose.isolation.groups import Group

ROOT = "../../"
_FOOT = (
    words(
        "Costs and minutes are estimates: midpoints of the steps' times, at the shop's labour. Shares come from what "
        "was counted, with their middle 90 %; after an outcome an interval is an estimate too. ",
        Link("How the plan is made", f"{ROOT}methods.html#plan"), ", ",
        Link("how shares are counted", f"{ROOT}methods.html#shares"), ".",
    ),
    words("One fault at a time is supposed, and tests that do not depend on one another."),
)  # fmt: skip
_TOGETHER = (words("These faults come together: confirm or rule out each of them. Nothing is ranked here."),)


def sheets(site: Site) -> Iterator[tuple[str, IsolationView]]:
    """Yield the sheet of each diagnosis of a known device and symptom, with its path."""
    for diagnosis in site.base.diagnoses.values():
        if diagnosis.device in site.base.devices and diagnosis.symptom in site.base.symptoms:
            yield path_of(diagnosis), isolation_view(site, diagnosis)


def isolation_view(site: Site, diagnosis: Diagnosis) -> IsolationView:
    """Return the sheet of *diagnosis*, complete for all variants."""
    device, symptom = site.base.devices[diagnosis.device], site.base.symptoms[diagnosis.symptom]
    found = groups(site, diagnosis)
    heading = diagnosis.title or f"{device.title.text}: {symptom.title.text[:1].lower()}{symptom.title.text[1:]}"
    return IsolationView(
        shell=site.shell(path_of(diagnosis), heading, source=diagnosis.path),
        title=TitleBlock("Fault isolation", heading, _cells(site, diagnosis, found)),
        asks=symptom.ask,
        arrived=tuple(_arrived(diagnosis)),
        tests=tuple(_test(site, diagnosis, test, found) for test in diagnosis.tests),
        causes=tuple(_causes(site, diagnosis)),
        groups=tuple(_group(site, group) for group in found),
        repairs=repairs(site, found),
        data=data(site, diagnosis, found),
        variants=choice(device, device.variant_ids),
        several=diagnosis.several,
        because="" if diagnosis.several or not found else capital(found[0].answer.because),
        new_price=show.tidy(device.price.text) if device.price else "",
        notes=prose(diagnosis.notes or ""),
        foot=_TOGETHER if diagnosis.several else _FOOT,
    )


def _cells(site: Site, diagnosis: Diagnosis, found: tuple[Group, ...]) -> tuple[Cell, ...]:
    device, symptom = site.base.devices[diagnosis.device], site.base.symptoms[diagnosis.symptom]
    plans = [(group, group.answer.plan) for group in found if group.answer.plan]
    counted = sum(one.seen for one in ranked(site.base, diagnosis))
    cells = [
        Cell(
            "Device", device.title.text, variant_titles(device, device.variant_ids), f"{ROOT}devices/{device.id}.html"
        ),
        Cell("The customer says", symptom.title.text, "", f"{ROOT}symptoms/{symptom.id}.html"),
        Cell("Cases counted", str(counted)),
    ]
    if plans:
        costs = dict.fromkeys(wording.money(plan.high, group.answer.currency) for group, plan in plans)
        times = dict.fromkeys(wording.minutes(group.answer.seconds) for group, _ in plans)
        cells += [
            Cell("To be expected", ", ".join(costs), f"{', '.join(times)} at the bench"),
            Cell("Cured", ", ".join(dict.fromkeys(held(percent(plan.first.cured)) for _, plan in plans))),
            Cell("Plan", ", ".join(dict.fromkeys(exactness(plan) for _, plan in plans)), "an estimate"),
        ]
    if site.base.shop and site.base.shop.labour:
        cells.append(Cell("Labour", show.tidy(site.base.shop.labour.text)))
    return tuple(cells)


def exactness(plan: Plan) -> str:
    """Return how near a plan is to the cheapest of all."""
    if plan.exact:
        return "exact"
    return f"within {held(f'{math.ceil(100 * (plan.high - plan.low) / plan.high)} %')}"


def _arrived(diagnosis: Diagnosis) -> Iterator[ArrivedRow]:
    """Yield what a test depends on, with the states that matter; the first is what is reckoned with."""
    for what, (title, states) in wording.ARRIVED_AS.items():
        barring = {state for test in diagnosis.tests for state in test.unless.get(what, ())}
        if barring:
            kept = [state for state in states if state == ARRIVED[what] or state in barring]
            yield ArrivedRow(what, title, tuple(Option(one, states[one], one == ARRIVED[what]) for one in kept))


def _test(site: Site, diagnosis: Diagnosis, test: Test, found: tuple[Group, ...]) -> TestRow:
    takes = show.tidy(test.takes.text) if test.takes else "up to 1 min"
    where = ", ".join([*([site.tool(test.instrument.text)] if test.instrument else []), test.access.text, takes])
    plans = [group.answer.plan for group in found]
    return TestRow(
        test.id, titled(test), where, test.do.text, tuple(Option(one.id, one.title.text) for one in test.outcomes),
        _barred(test), only_for(site.base.devices[diagnosis.device], test.only),
        bool(plans) and all(plan is not None and _begins(plan) == ("test", test.id) for plan in plans),
    )  # fmt: skip


def _begins(plan: Plan) -> tuple[str, str]:
    return plan.starts[0].kind, plan.starts[0].id


def _barred(test: Test) -> str:
    said = []
    for what, states in test.unless.items():
        title, names = wording.ARRIVED_AS[what]
        said.append(f"{title.lower()} {' or '.join(names[state].lower() for state in states if state in names)}")
    return f"Not where it arrived with {'; '.join(said)}." if said else ""


def _causes(site: Site, diagnosis: Diagnosis) -> Iterator[SuspectRow]:
    for one in ranked(site.base, diagnosis):
        seen = f"seen {one.seen} time{'' if one.seen == 1 else 's'}"
        refers = [cure for cure in one.cause.cures if isinstance(cure, Referral)]
        cures = one.cause.cures if diagnosis.several else refers
        yield SuspectRow(
            one.cause.id, one.cause.title.text, seen, wording.drawn(one.share) if one.share else None,
            tuple(cure_line(site, diagnosis.device, cure, ROOT) for cure in cures),
        )  # fmt: skip


def _group(site: Site, group: Group) -> PlanGroup:
    plan, posed = group.answer.plan, group.answer.posed
    if plan is None or posed is None:
        return PlanGroup(group.only, group.title, "", "", (), (), "")
    drawn, left_out = lines(group.answer, plan, posed, lambda name: named(site, group, name, ROOT))
    return PlanGroup(
        group.only, group.title, first_title(group), wording.reason_of(group.answer), actions(site, group), drawn,
        _summary(group, plan), left_out,
    )  # fmt: skip


def first_title(group: Group) -> str:
    """Return the title of what the plan begins with."""
    start = group.answer.plan.starts[0] if group.answer.plan else None
    return group.answer.titles.get((start.kind, start.id), start.id) if start else ""


def _summary(group: Group, plan: Plan) -> str:
    cost = f"{wording.money(plan.high, group.answer.currency)} and {wording.minutes(group.answer.seconds)}"
    said = f"To be expected: {cost} at the bench, cured in {held(percent(plan.first.cured))}."
    if plan.exact:
        return f"{said} No plan is cheaper. All of it is an estimate."
    low = wording.money(math.floor(100 * plan.low) / 100, group.answer.currency)
    within = exactness(plan).removeprefix("within ")
    return f"{said} It is within {within} of the cheapest, which costs {low} or more. All of it is an estimate."
