"""What can be done next, each with what it comes to; and each cure beside a new device."""

from __future__ import annotations

import math
from dataclasses import replace
from operator import mul
from typing import TYPE_CHECKING

from benchleaf.decisions.reason import percent
from benchleaf.model.procedure import ANY_DEVICE
from benchleaf.pages.compose.isolation.paths import path_of
from benchleaf.pages.compose.isolation.wording import ends, minutes, money, whole_minutes
from benchleaf.pages.compose.site import page_of, page_to_work_by
from benchleaf.pages.compose.wording import capital, held
from benchleaf.pages.home import FirstAction
from benchleaf.pages.isolation import ActionRow, RepairRow
from benchleaf.pages.parts import Link, words

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.decisions.plan import Plan, Start
    from benchleaf.decisions.pose import Posed, Way
    from benchleaf.decisions.replace import Verdict
    from benchleaf.pages.compose.isolation.groups import Group
    from benchleaf.pages.compose.site import Site

ROOT = "../../"


def named(site: Site, group: Group, name: str, root: str = ROOT) -> Link:
    """Return the link to the cure *name*, from the sheet where no other *root* is said."""
    device = group.answer.diagnosis.device
    target = site.base.procedures.get((device, name)) or site.base.procedures.get((ANY_DEVICE, name))
    title = group.answer.titles.get(("cure", name), name)
    approved = target and (target.approved or site.options.drafts)
    return Link(title, root + page_of(target) if target and approved else "")


def to_work_by(site: Site, group: Group, name: str) -> str:
    """Return the way from the sheet to the page by which the cure *name* is worked; "" where there is none."""
    device = group.answer.diagnosis.device
    target = site.base.procedures.get((device, name)) or site.base.procedures.get((ANY_DEVICE, name))
    has_page = target is not None and (target.approved or site.options.drafts) and bool(site.outcome(target).ways)
    return ROOT + page_to_work_by(target) if target and has_page else ""


def actions(site: Site, group: Group) -> tuple[ActionRow, ...]:
    """Return all that can be done before any test, the cheapest first."""
    plan, posed = group.answer.plan, group.answer.posed
    return tuple(_rows(site, group, plan, posed)) if plan and posed else ()


def _rows(site: Site, group: Group, plan: Plan, posed: Posed) -> Iterator[ActionRow]:
    tests = {test.id: number for number, test in enumerate(posed.problem.tests)}
    cures = {cure.id: number for number, cure in enumerate(posed.problem.cures)}
    for start in plan.starts:
        if start.kind == "test":
            row = _test(posed, tests[start.id])
        elif start.kind == "cure":
            row = _cure(site, group, posed, cures[start.id])
        else:
            row = ActionRow("refer", "", Link(capital(start.id)), "Whatever is left")
        yield replace(row, cost=beginning(start, plan, group.answer.currency), next=start is plan.starts[0])


def first_action(site: Site, group: Group, root: str) -> FirstAction | None:
    """Return what to do first, with its level and minutes, and what all of it comes to; nothing without a plan."""
    plan, posed = group.answer.plan, group.answer.posed
    if plan is None or posed is None:
        return None
    row = actions(site, group)[0]
    sheet = root + path_of(group.answer.diagnosis)
    to = {"test": f"{sheet}#test-{row.id}", "cure": named(site, group, row.id, root).href}.get(row.kind, sheet)
    cost = f"{money(plan.high, group.answer.currency)} and {minutes(group.answer.seconds)}"
    return FirstAction(
        words(Link(row.do.text, to), f", {row.level}, {held(f'{row.minutes} min')}" if row.level else ""),
        f"{cost} to be expected, cured in {held(percent(plan.first.cured))}", group.only,
    )  # fmt: skip


def _test(posed: Posed, number: int) -> ActionRow:
    test = posed.clock.tests[number]
    title = Link(posed.titles["test", test.id], f"#test-{test.id}")
    return ActionRow("test", test.id, title, level=posed.levels[test.level],
                     minutes=_sum(test.cost, posed.clock.travel[0][test.level]))  # fmt: skip


def beginning(start: Start, plan: Plan, currency: str) -> str:
    """Return what it costs to begin so; an upper bound says that it is one."""
    settled = start.low == start.high or (start is plan.starts[0] and plan.exact)
    return f"{'' if settled else '≤ '}{money(start.high, currency)}"


def _sum(own: float, ways: float) -> str:
    return f"{whole_minutes(own)} + {whole_minutes(ways)}" if ways else f"{whole_minutes(own)}"


def _cure(site: Site, group: Group, posed: Posed, number: int) -> ActionRow:
    problem, cure = posed.problem, posed.problem.cures[number]
    titles = {cause.id: cause.title.text for cause in group.answer.diagnosis.causes}
    mends = [titles[cause] for cause, works in zip(problem.causes, cure.success, strict=True) if works]
    way = posed.clock.travel[0][cure.level] + posed.clock.travel[cure.level][0]
    parts = max((one.repair.parts for one in posed.ways if one.procedure == cure.id), default=0.0)
    works = sum(map(mul, problem.shares, cure.success))
    return ActionRow(
        "cure", cure.id, named(site, group, cure.id), ", ".join(mends), posed.levels[cure.level],
        _sum(posed.clock.cures[number].cost, way), money(parts, group.answer.currency) if parts else "–",
        held(percent(works)), bench=to_work_by(site, group, cure.id),
    )  # fmt: skip


def repairs(site: Site, found: tuple[Group, ...]) -> tuple[RepairRow, ...]:
    """Return each cure by itself, beside a new device where the device has a price."""
    return tuple(
        _repair(site, group, way, verdict) for group in found for way, verdict in group.answer.repairs
    )  # fmt: skip


def _repair(site: Site, group: Group, way: Way, verdict: Verdict | None) -> RepairRow:
    own, currency = way.repair, group.answer.currency
    cause = next(one.title.text for one in group.answer.diagnosis.causes if one.id == way.cause)
    return RepairRow(
        named(site, group, way.procedure), cause, minutes(own.time), money(own.labour, currency),
        money(own.parts, currency) if own.parts else "–",
        held(f"{math.ceil(own.lead_time / 86400)} d") if own.lead_time else "",
        held(percent(own.success.value)), ends(own.success),
        money(verdict.repair, currency) if verdict else "", _verdict(verdict, currency) if verdict else "", group.only,
    )  # fmt: skip


def _verdict(verdict: Verdict, currency: str) -> str:
    """Return what pays and where it breaks even: the success rounded up, the price too, both against a repair."""
    judged = "Repair" if verdict.pays else "Replace"
    needed = held(f"{math.ceil(100 * verdict.success_needed)} %")
    price = ""
    if verdict.price_needed is not None:
        price = f", or where a new one costs {money(math.ceil(100 * verdict.price_needed) / 100, currency)}"
    sure = "" if verdict.sure else " Too few were counted to be sure."
    return f"{judged}: breaks even where {needed} of the tries work{price}.{sure}"
