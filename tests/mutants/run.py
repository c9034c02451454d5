"""All mutants, made and judged on as many cores as there are."""

from __future__ import annotations

import multiprocessing
import os
import traceback
import zlib
from functools import cache
from typing import TYPE_CHECKING

from tests.mutants.book import Book
from tests.mutants.case import Case, Verdict
from tests.mutants.operators import OPERATORS

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tests.mutants.fault import Mutant, Operator


@cache
def book() -> Book:
    """Return the demonstration; it is read once, and the processes that judge inherit it."""
    return Book()


@cache
def everything() -> tuple[tuple[Operator, Mutant], ...]:
    """Return each mutant with its operator, in the order of operators and files."""
    return tuple((operator, mutant) for operator in OPERATORS for mutant in operator.make(book()))


def sample(share: int) -> list[int]:
    """Return the numbers of about one mutant in *share*, the same ones as long as they are called the same."""
    return [
        number
        for number, (operator, mutant) in enumerate(everything())
        if zlib.crc32(mutant.key(operator.name).encode()) % share == 0
    ]


def judged(numbers: Sequence[int], processes: int | None = None) -> list[Verdict]:
    """Return what becomes of the mutants with these *numbers*."""
    several = processes or len(os.sched_getaffinity(0))
    everything()
    if several == 1:
        return [_judge(number) for number in numbers]
    with multiprocessing.get_context("fork").Pool(several) as pool:
        return pool.map(_judge, numbers, chunksize=20)


def _judge(number: int) -> Verdict:
    operator, mutant = everything()[number]
    try:
        return Case(book(), operator, mutant).verdict()
    except Exception as error:  # noqa: BLE001  (some cannot travel between processes, and none says which mutant it was)
        raise RuntimeError(f"{mutant.key(operator.name)}: {''.join(traceback.format_exception(error))}") from None
