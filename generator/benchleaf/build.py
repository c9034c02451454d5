"""The whole way in one screen: read, fit, build, check, derive, draw."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from functools import cache, partial
from itertools import chain
from typing import TYPE_CHECKING

from benchleaf.checks import engine
from benchleaf.checks.rule import Run
from benchleaf.checks.rules import RULES
from benchleaf.checks.scope import EVERYTHING, Scope
from benchleaf.derive.compare.whole import compared
from benchleaf.derive.facts import Facts, facts
from benchleaf.dryrun.performed import Bench
from benchleaf.findings import Fault, Finding, Place
from benchleaf.judged import Memory, judged
from benchleaf.model.build import Document, Part, build, part
from benchleaf.model.procedure import ANY_DEVICE
from benchleaf.pages.compose.rules import rule_pages
from benchleaf.pages.compose.site import Options, Site
from benchleaf.pages.draw import Drawer, drawer
from benchleaf.pages.whole import Keep, whole
from benchleaf.processes import processes, shared
from benchleaf.report.summary import Explained, Report
from benchleaf.shape.check import check as fit
from benchleaf.shape.schemas import Schemas, load
from benchleaf.source import packaged
from benchleaf.source.folder import File, identify
from benchleaf.source.read import read

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable, Mapping, Sequence

    from benchleaf.derive.compare.comparison import Comparison
    from benchleaf.derive.outcome import Outcome
    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.procedure import Procedure
    from benchleaf.processes import Watcher
    from benchleaf.source.folder import Folder

    _Read = tuple[Part, tuple[Fault, ...]]

_RUN = 20  # files that one process reads before it takes the next


@dataclass(frozen=True, slots=True)
class Checked:
    """A knowledge base and everything that was found in it, in reading order."""

    folder: Folder
    base: KnowledgeBase
    findings: tuple[Finding, ...]
    outcomes: Mapping[tuple[str, str], Outcome]  # by device and id; empty where no pages are wanted
    scope: Scope = EVERYTHING

    @property
    def stops(self) -> bool:
        """Whether something keeps the site from being published."""
        return any(finding.stops for finding in self.findings)

    @property
    def allowed(self) -> tuple[Finding, ...]:
        """What was found and is accepted, with the reasons."""
        return tuple(finding for finding in self.findings if finding.allowed is not None)

    def report(self, *, strict: bool = False) -> Report:
        """Return what was found, with the numbers of what was looked at, and what each rule is about."""
        asked, base = self.scope, self.base
        procedures = [procedure for procedure in base.procedures.values() if asked.has(procedure.path)]
        variants = sum(len(base.variants_of(procedure)) for procedure in procedures)
        devices = sum(asked.has(device.path) for device in base.devices.values())
        texts = {file.path: file.data for file in self.folder.files if asked.has(file.path)}
        return Report(self.findings, len(procedures), variants, devices, strict, texts=texts, rules=_explained())


@dataclass(slots=True)
class Cache:
    """
    What the last run made of the files, by their bytes, and of the procedures, by all that they hang on.

    What is about more than one file is asked anew each time.
    """

    parts: dict[File, _Read] = field(default_factory=dict)
    good: dict[str, Part] = field(default_factory=dict)  # by path: what a file was when it last fitted
    judged: Memory = field(default_factory=Memory)


def check(  # noqa: PLR0913  (what is checked, and each thing that a caller may want otherwise)
    folder: Folder,
    cache: Cache | None = None,
    today: dt.date | None = None,
    *,
    pages: bool = True,
    scope: Scope = EVERYTHING,
    watcher: Watcher | None = None,
) -> Checked:
    """
    Read the whole knowledge base in *folder* and check what *scope* asks about; *cache* spares what has not changed.

    What *pages* show of each performance is kept, so that none is performed twice; its states are not. What depends on
    the day is judged where *today* is given. A *watcher* is told how many procedures are performed, and of how many.
    """
    base, faults = _read(folder, cache)
    seen = judged(base, scope, watcher, cache.judged if cache else None, pages=pages)
    found = [*engine.weigh(faults, RULES), *seen.findings]
    found.extend(engine.conclude(Run(base, RULES, seen.used, tuple(found), today)))
    asked = (finding for finding in found if scope.has(finding.place.path))
    return Checked(folder, base, engine.in_order(asked), seen.outcomes, scope)


def read_base(folder: Folder) -> KnowledgeBase:
    """Return what can be read of the knowledge base in *folder*; nothing is performed and nothing checked."""
    return _read(folder, None)[0]


def _read(folder: Folder, cache: Cache | None) -> tuple[KnowledgeBase, list[Fault]]:
    kept = cache.parts if cache else {}
    own = [file for file in folder.files if file.kind]
    fresh = _parts([file for file in own if file not in kept])
    read_now = {file: kept.get(file) or fresh[file] for file in own}
    if cache:
        cache.parts = read_now
        cache.good = {
            file.path: cache.good.get(file.path, own) if own.made is None else own
            for file, (own, _) in read_now.items()
        }
    misplaced = [(file.path, Place(file.path, 1, 1, 2)) for file in folder.files if not file.kind]
    base = build((own for own, _ in read_now.values()), misplaced, folder.others)
    return base, [fault for _, found in read_now.values() for fault in found]


def last_good(folder: Folder, cache: Cache) -> KnowledgeBase:
    """Return the knowledge base with each file as it was when it last fitted: what a preview goes on showing."""
    return build(cache.good.values(), (), folder.others)


def facts_of(checked: Checked, procedure: Procedure, variant: str | None = None) -> Facts | None:
    """Return the facts of *procedure*, of one *variant* or of all; None where it is performed on none."""
    return facts(checked.base, procedure, tuple(Bench(checked.base).perform(procedure)), variant)


def passing(folder: Folder, path: str, drafts: Iterable[str]) -> tuple[str, tuple[Finding, ...]]:
    """Return the first of *drafts* in which nothing is found when it lies at *path*; the last, with what is found."""
    text, found = "", tuple[Finding, ...]()
    kind, device, name = identify(path.removeprefix(f"{folder.docs}/"))
    # What lies with other devices says nothing of this one, and the check of it all takes its time.
    near = tuple(file for file in folder.files if file.device in {"", device, ANY_DEVICE})
    for text in drafts:
        new = File(path, kind, device, name, text.encode())
        checked = check(replace(folder, files=(*near, new)), pages=False)
        found = tuple(finding for finding in checked.findings if finding.place.path == path)
        if not found:
            break
    return text, found


def compare(before: Folder, after: Folder, against: str) -> Comparison:
    """Return what the change between two states did to safety; *against* is what the older one is called."""
    old, new = ({file.path: file.data for file in folder.files} for folder in (before, after))
    differ = frozenset(path for path in old.keys() | new.keys() if old.get(path) != new.get(path))
    return compared(against, read_base(before), read_base(after), differ, after.docs)


def draw(checked: Checked, options: Options, keep: Keep) -> tuple[tuple[str, ...], dict[str, str]]:
    """
    Draw each page of ours and hand its text to *keep*, after its path in the site.

    Returns these paths, and the Markdown that we bring along by the name of its file.
    """
    site, texts, markdown = site_of(checked, options)
    return whole(site, page_drawer(), texts, keep), markdown


def site_of(checked: Checked, options: Options) -> tuple[Site, dict[str, str], dict[str, str]]:
    """Return what pages are drawn from: the site, all Markdown that the search finds, and what of it we bring along."""
    levels = {name: str(rule.level) for name, rule in RULES.items()}
    markdown = rule_pages(packaged.rule_texts(), levels)
    if packaged.STOP_PAGE not in checked.folder.others:
        markdown[packaged.STOP_PAGE] = packaged.stop_and_make_safe()
    texts = {**checked.folder.house, **markdown}
    site = Site(
        checked.base, options, checked.folder.notes, checked.outcomes, checked.allowed, texts[packaged.STOP_PAGE]
    )  # fmt: skip
    return site, texts, markdown


def _parts(files: Sequence[File]) -> dict[File, _Read]:
    """Return what *files* bring to the model; several processes share the reading of many."""
    runs = [files[first : first + _RUN] for first in range(0, len(files), _RUN)]
    found = shared([partial(_run, run) for run in runs], processes(len(files)))
    return dict(zip(files, chain.from_iterable(found), strict=True))


def _run(files: Sequence[File]) -> list[_Read]:
    return [(part(document), faults) for document, faults in map(_document, files)]


def _document(file: File) -> tuple[Document, tuple[Fault, ...]]:
    """Return what *file* became, and what is wrong with it; a file that does not fit is a document without a root."""
    result = read(file.data, file.path)
    unfit = fit(result.document, file.kind, _schemas()) if result.document else ()
    # A swallowed remark is a warning: what was read is a whole document.
    whole_document = not unfit and all(fault.rule == "swallowed-comment" for fault in result.faults)
    root = result.document if whole_document else None
    return Document(file.kind, file.device, file.id, file.path, root), result.faults + unfit


@cache
def _explained() -> Mapping[str, Explained]:
    return {name: Explained(rule.level, packaged.rule_texts()[name]) for name, rule in RULES.items()}


@cache
def _schemas() -> Schemas:
    return load(packaged.schemas())


@cache
def page_drawer() -> Drawer:
    """Return what draws pages, its templates compiled once."""
    return drawer(packaged.templates())
