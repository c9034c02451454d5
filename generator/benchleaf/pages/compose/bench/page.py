"""The page of one procedure to work by."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.derive.numbering import items
from benchleaf.model.diagnosis import Cure
from benchleaf.pages.bench import BenchStep, BenchView, CauseChoice
from benchleaf.pages.compose.bench.arrival import arrival, questions, takes
from benchleaf.pages.compose.bench.board import BoardWords
from benchleaf.pages.compose.bench.emergency import emergency
from benchleaf.pages.compose.bench.sizes import sizes
from benchleaf.pages.compose.bench.steps import Steps
from benchleaf.pages.compose.bench.way import WayData
from benchleaf.pages.compose.close import close
from benchleaf.pages.compose.limits import Limits
from benchleaf.pages.compose.procedure import BANNERS, sheet_rows
from benchleaf.pages.compose.site import device_title, number_of, page_of, page_to_work_by
from benchleaf.pages.parts import Banner, Link

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from benchleaf.derive.ways import Node
    from benchleaf.model.procedure import Procedure
    from benchleaf.pages.compose.site import Site

# The scripts that bring the page to life, in the order in which they run: each uses those before it.
_SCRIPTS = tuple(
    f"assets/bench{name}.js" for name in (
        "-judge", "-clock", "-tray", "-way", "-turn", "-record", "-store", "-keys", "-screen", "-draw", "-more",
        "-timer", "-arrive", "-close", "-once", "-press", "-work", "-scene", "",
    )
)  # fmt: skip


def bench_view(site: Site, procedure: Procedure) -> BenchView:
    """Return the page to work by *procedure*, with every way that was performed."""
    path = page_to_work_by(procedure)
    root = "../" * path.count("/")
    device, outcome = site.base.devices.get(procedure.device), site.outcome(procedure)
    letters = items(device) if device else {}
    limits = Limits(site, device, letters, root)
    words = BoardWords(device, letters, limits.temperature)
    way = WayData(site, procedure, words, root)
    steps = tuple(_steps(site, procedure, words, way))
    asked = tuple(questions(device, site.base.variants_of(procedure)))
    banner = BANNERS.get(procedure.status)
    return BenchView(
        shell=site.shell(path, procedure.title.text, source=procedure.path),
        device=procedure.device,
        procedure=procedure.id,
        number=number_of(procedure),
        revision=str(procedure.revision),
        heading=procedure.title.text,
        what=device_title(site, procedure.device),
        read=Link("Procedure to read", root + page_of(procedure)),
        questions=asked,
        takes=tuple(takes(site, procedure, root, tuple(question.name for question in asked))),
        steps=steps,
        close=tuple(close(device, limits, outcome)),
        emergency=emergency(site.emergency, root),
        sizes=sizes(site.base.shop),
        scripts=_SCRIPTS,
        way=way.data(arrival(site, procedure, root), [text for step in steps for text in _text(step)]),
        causes=tuple(_causes(site, procedure)),
        hands_back=_hands_back(site, procedure),
        aftercare=procedure.aftercare,
        banner=Banner(procedure.status, *banner) if banner else None,
    )


def _steps(site: Site, procedure: Procedure, words: BoardWords, way: WayData) -> Iterator[BenchStep]:
    """Yield each step that any way meets, once: those of the procedure as its sheet has them, then those of others."""
    met: dict[str, dict[str, Node]] = {}
    whose = {procedure.id: procedure}
    for _, nodes in site.outcome(procedure).ways:
        for node in nodes:
            if node.procedure not in whose:
                whose[node.procedure] = way.whose(node)
            met.setdefault(node.procedure, {}).setdefault(node.step, node)
    for name, own in whose.items():
        drawn = Steps(site, own, way.label, elsewhere=name != procedure.id)
        rows: Mapping[str, object] = sheet_rows(site, own)
        for step in rows:
            if step in met.get(name, {}):
                node = met[name][step]
                yield drawn.step(node, words.sentence(node.board))


def _text(step: BenchStep) -> Iterator[str]:
    """Yield what a reader sees of *step*: with another text it is another step, whatever the revision says."""
    yield from (step.step, step.do)
    yield from (f"{message.word} {message.what} {message.avoid}" for message in step.cautions)
    yield from (limit.strong for _, limit in step.limits)
    if step.check:
        yield f"{step.check.strong} {step.check.unit}"


def _causes(site: Site, procedure: Procedure) -> Iterator[CauseChoice]:
    """Yield the causes of each diagnosis that leads here: whether this procedure cures or not, one of them was it."""
    for (device, symptom), diagnosis in site.base.diagnoses.items():
        cures = [cure for cause in diagnosis.causes for cure in cause.cures if isinstance(cure, Cure)]
        if device == procedure.device and any(cure.procedure.text == procedure.id for cure in cures):
            known = site.base.symptoms.get(symptom)
            for cause in diagnosis.causes:
                title = f"{known.title.text if known else symptom}: {cause.title}"
                yield CauseChoice(f"{symptom}/{cause.id}", title)


def _hands_back(site: Site, procedure: Procedure) -> str:
    handed, device = procedure.hands_back, site.base.devices.get(procedure.device)
    if handed is None or device is None:
        return ""
    parts = [device.parts[name.text].title.text for name in handed.without if name.text in device.parts]
    return f"Handed back without: {', '.join(parts)}. {handed.because or ''}".strip()
