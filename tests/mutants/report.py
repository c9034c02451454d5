"""What the rules catch, as one table and two lists: what survived, and why the rest hurts nobody."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from tests.mutants.case import Verdict
    from tests.mutants.fault import Operator


def text(operators: Iterable[Operator], verdicts: Sequence[Verdict], known: Mapping[str, str]) -> str:
    """Return the whole report."""
    parts = (_table(operators, verdicts), _harmless(verdicts), _survivors(verdicts, known))
    return "\n\n".join("\n".join(part) for part in parts)


def outlived(verdicts: Iterable[Verdict], known: Mapping[str, str]) -> list[str]:
    """Return the known survivors that are no survivors any more: they are seen, hurt nobody, or are not made."""
    return sorted(known.keys() - {verdict.key for verdict in verdicts if verdict.survives})


def share(verdicts: Iterable[Verdict]) -> float:
    """Return which share of the dangerous mutants was caught; 1 where there are none."""
    dangerous = [verdict for verdict in verdicts if not verdict.harmless]
    return sum(not verdict.survives for verdict in dangerous) / len(dangerous) if dangerous else 1.0


def _table(operators: Iterable[Operator], verdicts: Sequence[Verdict]) -> Iterator[str]:
    yield f"{'operator':<26} {'mutants':>7} {'dangerous':>9} {'caught':>7} {'share':>8}  caught by"
    for operator in operators:
        own = [verdict for verdict in verdicts if verdict.operator == operator.name]
        if own:
            yield _row(operator.name, own, ", ".join(f"{rule} {count}" for rule, count in _rules(own)))
    yield _row("all", verdicts, "")


def _row(name: str, own: Sequence[Verdict], by: str) -> str:
    dangerous = [verdict for verdict in own if not verdict.harmless]
    caught = sum(not verdict.survives for verdict in dangerous)
    part = f"{share(own):>8.1%}" if dangerous else f"{'-':>8}"
    return f"{name:<26} {len(own):>7} {len(dangerous):>9} {caught:>7} {part}  {by}".rstrip()


def _rules(own: Sequence[Verdict]) -> list[tuple[str, int]]:
    counts = Counter(verdict.rule for verdict in own if verdict.rule)
    return sorted(counts.items(), key=lambda item: (-item[1], item[0]))


def _harmless(verdicts: Sequence[Verdict]) -> Iterator[str]:
    yield "No danger:"
    counts = Counter((verdict.harmless, verdict.operator) for verdict in verdicts if verdict.harmless)
    for reason in sorted({reason for reason, _ in counts}):
        where = sorted((name, count) for (why, name), count in counts.items() if why == reason)
        yield f"  {sum(count for _, count in where):>5}  {reason}"
        yield f"         {', '.join(f'{name} {count}' for name, count in where)}"


def _survivors(verdicts: Sequence[Verdict], known: Mapping[str, str]) -> Iterator[str]:
    survivors = [verdict for verdict in verdicts if verdict.survives]
    yield f"Survivors: {len(survivors)}, of which {sum(each.key in known for each in survivors)} are known"
    for verdict in sorted(survivors, key=lambda each: (each.key in known, each.operator, each.key)):
        yield f"  {verdict.key}"
        if verdict.key in known:
            yield f"      known: {known[verdict.key]}"
        yield from (f"      {found}" for found in verdict.besides)
