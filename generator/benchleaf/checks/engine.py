"""Runs the rules, gives each hit its rule's name and weight, and sorts what is found."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from benchleaf.findings import Fault, Finding, reading_order

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from benchleaf.checks.rule import Hit, Rule, Run, Used
    from benchleaf.dryrun.trace import Trace
    from benchleaf.model.knowledge import KnowledgeBase


class RuleCrashed(Exception):  # noqa: N818  (nothing was checked: louder than any finding)
    """A rule of ours broke: the knowledge base is not known to be sound."""


def weigh(faults: Iterable[Fault], rules: dict[str, Rule]) -> Iterator[Finding]:
    """Yield each fault of the reading and schema stages as a finding, with the weight of its rule."""
    for fault in faults:
        rule = rules[fault.rule]
        yield Finding(rule.name, rule.level, fault.place, fault.message, fault.help, fault.variants)


def run(base: KnowledgeBase, rules: dict[str, Rule], used: Used | None = None) -> Iterator[Finding]:
    """Yield what every rule finds. A rule that breaks stops the run: a silent one would look like a sound base."""
    for rule in rules.values():
        try:
            for hit in rule.check(base):
                yield _finding(rule, hit, hit.variants, used)
        except Exception as error:
            raise RuleCrashed(f"The rule {rule.name} broke: {error!r}") from error


def watch(trace: Trace, rules: Iterable[Rule], used: Used | None = None) -> Iterator[Finding]:
    """Yield what every rule sees in *trace*; what the same rule sees again in the same place is said once."""
    variants = trace.variants if trace.world.device else ()
    for rule in rules:
        seen = set()
        try:
            for hit in rule.watch(trace):
                key = (hit.place, hit.about or hit.message)
                if key not in seen:
                    seen.add(key)
                    yield _finding(rule, hit, variants, used)
        except Exception as error:
            raise RuleCrashed(f"The rule {rule.name} broke on {trace.procedure.path}: {error!r}") from error


def compare(traces: Sequence[Trace], rules: Iterable[Rule], used: Used | None = None) -> Iterator[Finding]:
    """Yield what every rule finds in *traces*, the performances of one procedure, when it sees them together."""
    for rule in rules:
        try:
            for hit in rule.compare(traces):
                yield _finding(rule, hit, hit.variants, used)
        except Exception as error:
            raise RuleCrashed(f"The rule {rule.name} broke on {traces[0].procedure.path}: {error!r}") from error


def conclude(run: Run) -> Iterator[Finding]:
    """Yield what the rules say of a whole run: each hit is weighed before the next is asked for."""
    for rule in run.rules.values():
        try:
            for hit in rule.conclude(run):
                yield _finding(rule, hit, hit.variants, run.used)
        except Exception as error:
            raise RuleCrashed(f"The rule {rule.name} broke: {error!r}") from error


def _finding(rule: Rule, hit: Hit, variants: tuple[str, ...], used: Used | None) -> Finding:
    allowed = None
    if hit.step is not None and not rule.never_allowed:
        exception = next((allow for allow in hit.step.allow if allow.rule.text == rule.name), None)
        if exception:
            allowed = exception.because or ""
            if used is not None:
                used.places.add((rule.name, exception.place))
    return Finding(rule.name, hit.level or rule.level, hit.place, hit.message, hit.help, variants, allowed)


def in_order(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Return *findings* as a reader meets them, each once, those that differ in variants alone merged."""

    def same(finding: Finding) -> tuple[object, ...]:
        return (*reading_order(finding), finding.level)

    merged = []
    for _, group in groupby(sorted(findings, key=same), key=same):
        alike = list(group)
        variants = tuple(sorted({name for finding in alike for name in finding.variants}))
        first = alike[0]
        merged.append(Finding(first.rule, first.level, first.place, first.message, first.help, variants, first.allowed))
    return tuple(merged)
