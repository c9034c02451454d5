"""What the schema accepts is performed, judged and shown, whatever it says: nothing of ours breaks."""

from __future__ import annotations

from itertools import combinations
from typing import TYPE_CHECKING

from hypothesis import given

from benchleaf import build
from benchleaf.decisions.diagnose import ARRIVED, diagnose
from benchleaf.derive.job import job
from benchleaf.derive.jobs import accepts
from benchleaf.dryrun.performed import performed
from benchleaf.pages.compose.site import Options
from benchleaf.report import DIAGNOSES
from tests import make
from tests.properties.invented import folder, knowledge_bases
from tests.properties.profile import examples

if TYPE_CHECKING:
    from tests.properties.grown import Value


@examples(80)
@given(knowledge_bases())
def test_anything_is_judged(documents: dict[str, Value]) -> None:
    """A knowledge base that fits the schemas is judged without an exception, and each finding stands in a file."""
    checked = build.check(folder(documents))

    lines = {file.path: file.data.decode().count("\n") + 1 for file in checked.folder.files}
    assert all(1 <= finding.place.line <= lines[finding.place.path] for finding in checked.findings)
    assert all(finding.message and finding.help for finding in checked.findings)


@examples(20)
@given(knowledge_bases())
def test_anything_is_shown(documents: dict[str, Value]) -> None:
    """What is published of a knowledge base that fits the schemas can be drawn, and its jobs be told."""
    checked = build.check(folder(documents))

    pages = make.pages(checked, Options(drafts=True))
    jobs = [job(trace) for trace in performed(checked.base)]

    assert "index.html" in pages
    assert all(isinstance(accepts(pair), tuple) for pair in combinations(jobs, 2))


@examples(40)
@given(knowledge_bases())
def test_anything_is_diagnosed(documents: dict[str, Value]) -> None:
    """Every diagnosis that fits the schemas is answered on every variant, with a plan or with the reason why not."""
    base = build.read_base(folder(documents))

    answers = [
        diagnose(base, diagnosis, variant, {}, ARRIVED)
        for diagnosis in base.diagnoses.values() if diagnosis.device in base.devices
        for variant in base.devices[diagnosis.device].variant_ids
    ]  # fmt: skip

    assert all((one.plan is None) == bool(one.because) for one in answers)
    assert all(write(one) for one in answers for write in DIAGNOSES.values())
