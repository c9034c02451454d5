"""JUnit: valid against the schema of what reads it, and read back by a library."""

from __future__ import annotations

from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
import xmlschema
from junitparser import Failure, JUnitXml, Skipped, TestSuite

from benchleaf.findings import Finding, Level, Place
from benchleaf.report import FORMATS
from benchleaf.report.summary import Report
from tests.faulty import AGAIN, ODD, faulty

SCHEMA = xmlschema.XMLSchema(Path(__file__).parent / "schemas" / "junit-10.xsd")


def suite(report: Report) -> TestSuite:
    """Return *report* as a reader of JUnit has it, and hold it against the schema."""
    text = FORMATS["junit"](report)
    SCHEMA.validate(text)
    [only] = JUnitXml.fromstring(text.encode())
    assert isinstance(only, TestSuite)
    return only


@pytest.mark.outside
@pytest.mark.parametrize(("strict", "failures"), [(False, 5), (True, 6)])
def test_counts(*, strict: bool, failures: int) -> None:
    """A library counts as many failures as stop publication, and what is allowed as skipped."""
    report = faulty(strict=strict)
    read = suite(report)

    assert (failures, failures) == (report.stopping, read.failures)
    assert (1, 0) == (read.skipped, read.errors)
    assert read.tests == len(list(read))
    assert failures == sum(isinstance(result, Failure) for case in read for result in case.result)


@pytest.mark.outside
def test_schema_bites() -> None:
    """The schema that the tests hold JUnit against refuses a case without a name."""
    spoilt = FORMATS["junit"](faulty()).replace(' name="wrong-value"', "")

    assert not SCHEMA.is_valid(spoilt)


@pytest.mark.outside
def test_cases() -> None:
    """Each finding is a case of its file, each file in which nothing was found one that passes."""
    cases = {(case.classname, case.name): case for case in suite(faulty())}

    assert cases["kb/procedures/tools.yml", "check"].is_passed
    assert {f"kb/{AGAIN}"} == {file for file, name in cases if name.startswith("unknown-reference")}
    assert ("kb/procedures/repairs/wader/replace-lamp.yml", "check") not in cases
    [skipped] = cases["kb/procedures/repairs/wader/replace-lamp.yml", "missing-picture"].result
    assert isinstance(skipped, Skipped)
    assert "It is drawn next week." == skipped.message
    [failure] = cases[f"kb/{AGAIN}", "unknown-reference 2"].result
    assert failure.text.startswith(f"kb/{AGAIN}:9:36: error unknown-reference: ")
    assert "review" in str(cases[f"kb/{AGAIN}", "overdue-review"].system_out)


def test_names_survive_moved_lines() -> None:
    """CI knows a case again by its file and name when lines move, and no two share both."""
    names = [(case.classname, case.name) for case in suite(faulty())]
    moved = [(case.classname, case.name) for case in suite(faulty(changes={ODD: "\n\n" + _odd()}))]

    assert len(names) == len(set(names))
    assert names == moved


def _odd() -> str:
    return faulty().texts[ODD].decode()


def test_signs_that_xml_cannot_hold() -> None:
    """What XML 1.0 has no way to write stands there as its code, and the rest is escaped."""
    finding = Finding("some-rule", Level.ERROR, Place("a.yml", 1, 1, 2), "\x00\x1b[31m<&>\ud800\uffff", "]]>", ("w1",))

    text = FORMATS["junit"](Report((finding,), 1, 1, 1))

    assert r"\x00\x1b[31m<&>\ud800\uffff (w1)" == next(ET.fromstring(text).iter("failure")).get("message")  # noqa: S314 - our own text
