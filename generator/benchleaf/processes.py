"""
Work shared out among as many processes as there are cores: the same results in the same order, in less time.

How many take part is said here and nowhere else. The process that asks works as well; its helpers are copies of it,
made when all that the tasks need is built (so a task is never sent anywhere), and only their results travel.
"""

from __future__ import annotations

import gc
import os
import signal
import sys
import threading
import traceback
from collections.abc import Callable
from contextlib import contextmanager, suppress
from typing import TYPE_CHECKING, Generic, TypeAlias, TypeVar

from benchleaf.findings import Refused

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from multiprocessing.connection import Connection
    from multiprocessing.context import ForkProcess

T = TypeVar("T")
Watcher: TypeAlias = Callable[[int, int], None]
"""What is told how many are done, and of how many."""

SETTING = "BENCHLEAF_PROCESSES"
"""The variable of the environment that says how many take part; with 1 there are no helpers."""

_WORTH = 100  # procedures: below it helpers cost more than they bring
_MOST = 4  # what comes before the sharing takes as long as a quarter of the rest
_TICKETS = 1000  # four bytes each: a pipe takes less than 4,096 at one stroke, whatever the system
_TICKET = 4  # bytes


def processes(procedures: int) -> int:
    """Return how many processes take part in work on so many *procedures*."""
    said = os.environ.get(SETTING, "")
    if said and not (said.isascii() and said.isdecimal() and int(said)):
        raise Refused(f"{SETTING}={said}: write a whole number from 1 on, or leave it out")
    # Not macOS: what its own libraries hold may not be copied. Not beside other threads: a lock would be copied locked.
    if sys.platform in {"darwin", "win32"} or threading.active_count() > 1:
        return 1
    if said:
        return int(said)
    return min(len(os.sched_getaffinity(0)), _MOST) if procedures >= _WORTH else 1


def shared(tasks: Sequence[Callable[[], T]], count: int) -> list[T]:
    """
    Return what each of *tasks* returns, in their order, worked out by *count* processes.

    Whoever is free takes the next one. A task that breaks ends all of them, and its error is raised here.
    """
    if min(count, len(tasks)) < 2:
        return [task() for task in tasks]
    return _Crew(tasks).work(min(count, len(tasks)) - 1)


@contextmanager
def tally(total: int, watcher: Watcher | None) -> Iterator[Callable[[], None]]:
    """
    Give what a task calls for each of *total* things that it has done, in whatever process it works.

    The process that asked tells the *watcher* of all of them, whenever it has done one itself.
    """
    if watcher is None:
        yield lambda: None
        return
    asked_by, done = os.getpid(), 0
    seen, made = os.pipe()
    # Where nobody has looked for so long that the pipe is full, a count is lost and no work waits.
    os.set_blocking(seen, False)
    os.set_blocking(made, False)

    def counted() -> None:
        nonlocal done
        with suppress(BlockingIOError):
            os.write(made, b".")
        if os.getpid() == asked_by:
            with suppress(BlockingIOError):
                done += len(os.read(seen, 1 << 16))
            watcher(done, total)

    try:
        yield counted
    finally:
        os.close(seen)
        os.close(made)


class _Crew(Generic[T]):
    """Those who work on the same tasks: this process and its helpers."""

    def __init__(self, tasks: Sequence[Callable[[], T]]) -> None:
        self._tasks = tasks
        self._stride = -(-len(tasks) // _TICKETS)
        self._helpers: list[tuple[ForkProcess, Connection]] = []

    def work(self, helpers: int) -> list[T]:
        tickets, fill = os.pipe()
        for first in range(0, len(self._tasks), self._stride):
            os.write(fill, first.to_bytes(_TICKET, "big"))
        os.close(fill)  # Whoever finds no ticket left finds the end.
        try:
            for _ in range(helpers):
                self._start(tickets)
            done = self._take(tickets)
            for process, connection in self._helpers:
                done |= _received(process, connection)
        finally:
            # However this ends (a bug, Ctrl-C), no helper outlives it.
            for process, connection in self._helpers:
                process.terminate()
                process.join()
                connection.close()
            os.close(tickets)
        return [result for _, results in sorted(done.items()) for result in results]

    def _start(self, tickets: int) -> None:
        import multiprocessing  # noqa: PLC0415  (slow to load, and most commands need no helpers)

        context = multiprocessing.get_context("fork")
        receiving, sending = context.Pipe(duplex=False)
        process = context.Process(target=self._help, args=(tickets, receiving, sending, os.getpid()), daemon=True)
        process.start()
        sending.close()
        self._helpers.append((process, receiving))

    def _take(self, tickets: int, asked_by: int | None = None) -> dict[int, list[T]]:
        """Return the results by the number of the first task of each ticket; stop where *asked_by* is gone."""
        done = {}
        while ticket := os.read(tickets, _TICKET):
            if asked_by is not None and os.getppid() != asked_by:
                raise BrokenPipeError
            first = int.from_bytes(ticket, "big")
            done[first] = [task() for task in self._tasks[first : first + self._stride]]
        return done

    def _help(self, tickets: int, receiving: Connection, sending: Connection, asked_by: int) -> None:
        """Work as a helper: take tasks until none is left, then hand over all results at once."""
        # A signal ends a helper without a word: the one that asked says what there is to say, and takes care of files.
        for number in (signal.SIGINT, signal.SIGTERM):
            signal.signal(number, signal.SIG_DFL)
        gc.disable()  # It would touch, and so copy, everything that is still shared with the one that asked.
        for connection in (receiving, *(other for _, other in self._helpers)):
            connection.close()  # Else nobody would notice that the one that asked is gone.
        try:
            sending.send(self._take(tickets, asked_by))
        except BrokenPipeError:
            return  # Nobody waits for it.
        except Exception as error:  # noqa: BLE001  (it is raised where it was asked for)
            sending.send(_Broken(error))


class _Broken:
    """An error on its way to another process, with the traceback that would else stay behind."""

    def __init__(self, error: Exception) -> None:
        self.error = error
        self.trace = "".join(traceback.format_exception(error))


def _received(process: ForkProcess, connection: Connection) -> dict[int, list[T]]:
    try:
        done: dict[int, list[T]] | _Broken = connection.recv()
    except EOFError:
        process.join()
        raise RuntimeError(f"A process that helped was ended from outside (exit code {process.exitcode})") from None
    if isinstance(done, _Broken):
        done.error.add_note(f"In a process that helped:\n{done.trace}")
        raise done.error
    return done
