"""What a preview remembers from one state of the files to the next, so that it draws what changed and nothing else."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING, TypeAlias

from benchleaf import build
from benchleaf.derive.hanging import hangs_on, unchanged
from benchleaf.derive.usage import shown
from benchleaf.model.procedure import ANY_DEVICE
from benchleaf.pages import whole
from benchleaf.processes import processes, shared

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from benchleaf.derive.outcome import Outcome
    from benchleaf.model.procedure import Procedure
    from benchleaf.pages.compose.site import Options, Site
    from benchleaf.source.folder import Folder

_Key: TypeAlias = "tuple[str, str]"


class Session:
    """
    Checks and draws state after state.

    The pages of a procedure hang on what its performances hang on, and on the symptoms; everything that is about more
    than one procedure is drawn each time. A file that does not fit is shown as it was when it last did.
    """

    def __init__(self, options: Options) -> None:
        """Remember nothing yet."""
        self.options = options
        self.pages: whole.Pages = {}
        self.markdown: dict[str, str] = {}
        self._cache = build.Cache()
        self._outcomes: Mapping[_Key, Outcome] = {}
        self._common: tuple[object, ...] = ()
        self._drawn: dict[_Key, tuple[tuple[object, ...], whole.Pages]] = {}

    def check(self, folder: Folder) -> build.Checked:
        """Return what is found in *folder* now."""
        return build.check(folder, self._cache)

    def draw(self, checked: build.Checked) -> Iterator[whole.Pages]:
        """Yield the pages of the procedures that changed, for which one waits, and then the whole site."""
        seen = self._last_good(checked)
        site, texts, self.markdown = build.site_of(seen, self.options)
        drawer = build.page_drawer()
        common = (self.options, site.emergency)
        if common != self._common:
            self._common, self._drawn = common, {}
        live = {(one.device, one.id): one for one in shown(site.base, drafts=self.options.drafts)}
        kept = {key: self._drawn[key] for key in live if key in self._drawn}
        hangs = {key: _hangs_on(site, procedure) for key, procedure in live.items()}
        anew = [key for key in live if key not in kept or not unchanged(kept[key][0], hangs[key])]
        tasks = [partial(whole.of_one, site, drawer, live[key]) for key in anew]
        fresh = dict(zip(anew, shared(tasks, processes(len(anew))), strict=True))
        self._drawn = kept | {key: (hangs[key], pages) for key, pages in fresh.items()}
        yield {path: text for pages in fresh.values() for path, text in pages.items()}
        self.pages = whole.of_many(site, drawer, texts)
        for _, own in self._drawn.values():
            self.pages |= own
        yield self.pages

    def _last_good(self, checked: build.Checked) -> build.Checked:
        """Return *checked* with what does not fit as it was when it last did, and as it was performed then."""
        base = checked.base
        if base.broken:
            base = build.last_good(checked.folder, self._cache)
        outcomes = {**self._outcomes, **checked.outcomes}
        self._outcomes = {key: one for key, one in outcomes.items() if key in base.procedures}
        return replace(checked, base=base, outcomes=self._outcomes)


def _hangs_on(site: Site, procedure: Procedure) -> tuple[object, ...]:
    """Return all that the pages of *procedure* hang on; what it leads to is shown on them as well."""
    known = hangs_on(site.base, procedure)
    outcomes = (site.outcomes.get((one.device, one.id)) for one in known if isinstance(one, type(procedure)))
    # The page to work by asks which of the causes it was.
    causes = (one for (device, _), one in site.base.diagnoses.items() if procedure.device in {device, ANY_DEVICE})
    return (*known, site.base.symptoms, *causes, *outcomes)
