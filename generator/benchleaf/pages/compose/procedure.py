"""The page of one procedure."""

from __future__ import annotations

from dataclasses import replace
from itertools import groupby
from typing import TYPE_CHECKING

from benchleaf.derive.lasting import lasting
from benchleaf.derive.numbering import items
from benchleaf.model import action as act
from benchleaf.pages.compose.after import said
from benchleaf.pages.compose.checks import check
from benchleaf.pages.compose.close import close
from benchleaf.pages.compose.code import code
from benchleaf.pages.compose.heat import heat_pictures
from benchleaf.pages.compose.limits import Limits
from benchleaf.pages.compose.methods.view import method_link
from benchleaf.pages.compose.requirements import Requirements
from benchleaf.pages.compose.rows import joined
from benchleaf.pages.compose.site import (
    Site,
    choice,
    device_title,
    number_of,
    only_for,
    page_of,
    page_to_work_by,
    variant_titles,
)
from benchleaf.pages.compose.timeline import timelines
from benchleaf.pages.compose.wording import hazard_of
from benchleaf.pages.parts import Banner, Cell, Link, Only, Picture, SafetyMessage, TitleBlock, Words, words
from benchleaf.pages.prose import prose
from benchleaf.pages.sheet import (
    Data,
    Need,
    Phase,
    ProcedureView,
    Row,
    Sheet,
    State,
)
from benchleaf.units import show

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from benchleaf.derive.numbering import Numbered
    from benchleaf.model.procedure import Procedure
    from benchleaf.model.step import Step

_PHASES = {"opening": ("O", "Open up"), "work": ("W", "Work"), "closing": ("C", "Close up"), "prove": ("P", "Prove")}
_KINDS = {
    "make-safe": "Procedure to make safe", "inspection": "Procedure to inspect",
    "calibration": "Procedure to calibrate", "data-rescue": "Procedure to rescue data",
}  # fmt: skip
_CONSENT = {
    "data-loss": "Data may be lost. Have the owner's agreement in writing.",
    "irreversible": "This cannot be undone. Have the owner's agreement in writing.",
    "seal-rating": "The rating against dust and water is not proved again. Have the owner's agreement in writing.",
}
_ARRIVES = {
    ("power", "off"): "Off", ("power", "dead"): "Dead", ("power", "unknown"): "On or dead, not known",
    ("liquid", "water"): "Wet, water", ("liquid", "sea-water"): "Wet, sea water",
    ("liquid", "unknown"): "Wet or not, not known", ("battery", "swollen"): "Battery swollen",
    ("battery", "unknown"): "Battery sound or not, not known", ("glass", "broken"): "Glass broken",
}  # fmt: skip
# The last is an author's own caution, which has no signal word.
_GRAVEST = ("DANGER", "WARNING", "CAUTION", "NOTICE", "")
_RECORD = {"photo": "Photograph it.", "note": "Write down what you see.", "reading": "Write down the reading."}
BANNERS = {
    "draft": ("Draft", "Not approved. It is shown here for its author and is not on the public site."),
    "in-review": ("In review", "Not approved yet. It is shown here for its reviewer and is not on the public site."),
}
_KEPT = 64
"""Of so many procedures the composed steps are kept: neighbours lead to one another, and all of them would be a lot."""
_FOOT = (
    words("State after: what the step changes, as performed on a simulated device in one straight pass."),
    words(
        "Times to dry and to cool, warmth and shares of a limit are estimates: one number is the cautious end, two are "
        "the low and the cautious one. A measurement beats them."
    ),
)


def procedure_view(site: Site, procedure: Procedure) -> ProcedureView:
    """Return the page of *procedure*, complete for all its variants."""
    return _Page(site, procedure).view()


def sheet_rows(site: Site, procedure: Procedure) -> Mapping[str, Row]:
    """Return the steps of *procedure* as its sheet shows them, by id; those of a few procedures are remembered."""
    return site.drawn.get((procedure.device, procedure.id)) or _Page(site, procedure).rows()


class _Page:
    """Gathers what the parts of one procedure's page share."""

    def __init__(self, site: Site, procedure: Procedure) -> None:
        self._site, self._procedure = site, procedure
        self._path = page_of(procedure)
        self._root = "../" * self._path.count("/")
        self._device = site.base.devices.get(procedure.device)
        self._rows = site.rows(procedure)
        self._numbers = {row.step.id: row.number for row in self._rows}
        self._letters = items(self._device) if self._device else {}
        self._limits = Limits(site, self._device, self._letters, self._root)
        self._outcome = site.outcome(procedure)
        self._variants = site.base.variants_of(procedure)
        self._heat = heat_pictures(self._device, self._outcome, self._limits)

    def view(self) -> ProcedureView:
        procedure, site = self._procedure, self._site
        banner = BANNERS.get(procedure.status)
        handed = procedure.hands_back
        without = ", ".join(self._part(name.text) for name in handed.without) if handed else ""
        return ProcedureView(
            shell=site.shell(self._path, procedure.title.text, source=procedure.path),
            title=self._title(),
            needs=Requirements(site, procedure, self._rows, self._limits, self._root).view(self._gathered()),
            sheet=Sheet(tuple(self._phases())),
            running=self._running(),
            code=code(site.address(self._path)),
            close=tuple(close(self._device, self._limits, self._outcome)),
            bench=self._root + page_to_work_by(procedure) if self._outcome.ways else "",
            banner=Banner(procedure.status, *banner) if banner else None,
            variants=choice(self._device, self._variants),
            timelines=timelines(self._device, self._outcome, self._numbers),
            fixes=self._fixes(),
            arrives=self._arrives(),
            consent=tuple(_CONSENT.get(name, name) for name in procedure.consent),
            aftercare=procedure.aftercare,
            hands_back=f"Handed back without: {without}. {handed.because or ''}".strip() if handed else "",
            notes=prose(procedure.notes or ""),
            foot=_FOOT,
        )

    def _running(self) -> str:
        procedure = self._procedure
        told = (number_of(procedure), procedure.title.text, f"revision {procedure.revision}", procedure.reviewed or "")
        draft = "" if procedure.status == "approved" else procedure.status
        return " · ".join(text for text in (*told, draft) if text)

    def _title(self) -> TitleBlock:
        procedure = self._procedure
        hands, waiting = self._site.lasts(procedure)
        around = [row for row in self._rows if row.kind in {"opening", "closing"}]
        shared = [f"{show.interval(part.low, part.high)} of it opening and closing" if part.high else ""
                  for part in lasting(around, self._variants)]  # fmt: skip
        level = self._device.access.get(procedure.access.text) if self._device else None
        device = "" if self._device is None else f"{self._root}devices/{procedure.device}.html"
        fits = variant_titles(self._device, self._variants)
        return TitleBlock(
            kind=_KINDS.get(procedure.purpose, "Procedure"),
            heading=procedure.title.text,
            cells=(
                Cell("Number", number_of(procedure)),
                Cell("Revision", str(procedure.revision)),
                Cell("Reviewed", procedure.reviewed or "not yet"),
                Cell("Status", procedure.status),
                Cell("For", fits or device_title(self._site, procedure.device), href=device),
                Cell("Level", procedure.access.text, level.title.text if level else ""),
                Cell("Hands on", show.interval(hands.low, hands.high), shared[0]),
                Cell("Waiting", show.interval(waiting.low, waiting.high), shared[1]),
            ),
        )  # fmt: skip

    def rows(self) -> Mapping[str, Row]:
        """Return the steps by their ids, composed once for all pages that show them."""
        kept, key = self._site.drawn, (self._procedure.device, self._procedure.id)
        if key not in kept:
            while len(kept) >= _KEPT:
                del kept[next(iter(kept))]
            kept[key] = {row.step.id: self._row(row) for row in self._rows}
        return kept[key]

    def _fixes(self) -> Words:
        known = [name for name in self._procedure.fixes if name.text in self._site.base.symptoms]
        return joined(
            Link(self._site.base.symptoms[name.text].title.text, f"{self._root}symptoms/{name}.html") for name in known
        )

    def _arrives(self) -> tuple[str, ...]:
        how = self._procedure.arrives
        pairs = (("power", how.power), ("liquid", how.liquid), ("battery", how.battery), ("glass", how.glass))
        return tuple(_ARRIVES[pair] for pair in pairs if pair in _ARRIVES)

    def _gathered(self) -> Iterator[Need]:
        """Yield the safety messages of all steps, the gravest first: word, hazard, and before which steps."""
        found: dict[tuple[str, str], list[Numbered]] = {}
        for row in self._rows:
            for message in self._messages(row.step):
                rows = found.setdefault((message.signal.upper(), message.hazard), [])
                if row not in rows:
                    rows.append(row)
        for (word, hazard), rows in sorted(found.items(), key=lambda item: _GRAVEST.index(item[0][0])):
            note = f"before {', '.join(row.number for row in rows)}"
            yield Need(hazard_of(hazard), note, f"#step-{rows[0].step.id}", strong=word)

    def _part(self, name: str) -> str:
        part = self._device.parts.get(name) if self._device else None
        return part.title.text if part else name

    def _phases(self) -> Iterator[Phase]:
        for (kind, _), group in groupby(self._rows, key=lambda row: (row.kind, row.level.id if row.level else "")):
            rows = list(group)
            letter, title = _PHASES[kind]
            level = rows[0].level
            if level:
                end = level.id if kind == "opening" else level.parent.text
                title = f"{title}, to level “{end}”"
            hands, waiting = lasting(rows, self._variants)
            both = hands + waiting
            note = f"{show.interval(both.low, both.high)}, shared with other procedures of one job" if level else ""
            yield Phase(letter, title, tuple(self.rows()[row.step.id] for row in rows), note)

    def _row(self, row: Numbered) -> Row:
        step = row.step
        only = only_for(self._device, step.only) or (only_for(self._device, row.level.only) if row.level else None)
        return Row(
            number=row.number,
            step=step.id,
            do=step.do.text,
            why=step.why or "",
            uses=self._uses(step),
            record=_RECORD.get(step.record or "", ""),
            marks=("Cannot be undone",) if step.irreversible else (),
            cautions=tuple(self._messages(step)),
            limits=self._limits.of(step, self._outcome.held.get(step.id, ())),
            check=check(self._site, self._procedure, self._numbers, step.check, self._root) if step.check else None,
            after=tuple(self._state(step.id)),
            pictures=self._pictures(row),
            heat=self._heat.get(step.id, ()),
            only=only,
            data=(Data("record", step.record),) if step.record else (),
        )  # fmt: skip

    def _messages(self, step: Step) -> Iterator[SafetyMessage]:
        """Yield what the dry run found to say before *step*, the gravest first, then the author's own."""
        for one, variants in self._outcome.callouts:
            if one.step == step.id:
                titles = variant_titles(self._device, variants)
                yield SafetyMessage(
                    one.hazard, one.signal.upper(), one.hazard, one.what, one.signal, one.happens, one.avoid,
                    method_link(one.method, self._root) if one.method else None,
                    Only(" ".join(variants), f"{titles} only") if variants else None,
                )  # fmt: skip
        for own in step.cautions:
            yield SafetyMessage(own.hazard, hazard_of(own.hazard), own.hazard, own.text.text)

    def _uses(self, step: Step) -> Words:
        names = dict.fromkeys([*(tool.text for tool in step.use), *_acting(step)])
        tools = joined(Link(self._site.tool(name), f"{self._root}tools.html#tool-{name}") for name in names)
        takes = f"takes {show.tidy(step.takes.text)}" if step.takes else ""
        if not tools:
            return words(takes) if takes else ()
        return (*words("with "), *tools, *words(f", {takes}")) if takes else (*words("with "), *tools)

    def _state(self, step: str) -> Iterator[State]:
        for news, variants in self._outcome.after.get(step, ()):
            state = said(self._device, self._letters, news)
            if state is not None:
                only = (words(f"{variant_titles(self._device, variants)} only"),) if variants else ()
                yield replace(state, notes=(*state.notes, *only)) if only else state

    def _pictures(self, row: Numbered) -> tuple[Picture, ...]:
        picture = row.step.picture
        return (Picture(self._root + picture.text, f"Drawing for {row.number}: {row.step.do}"),) if picture else ()


def _acting(step: Step) -> Iterator[str]:
    """Yield the tool that the action of *step* itself names."""
    match step.action:
        case act.Heat(tool=tool):
            yield tool.text
        case act.Bath(tool=tool) | act.Release(tool=tool) if tool is not None:
            yield tool.text
        case _:
            return
