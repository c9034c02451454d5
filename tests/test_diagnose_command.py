"""`benchleaf diagnose` as its callers meet it."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

import pytest

from tests.test_cli import change, run, shop

if TYPE_CHECKING:
    from pathlib import Path

__all__ = ["shop"]


def asked(shop: Path, *arguments: str) -> Any:  # noqa: ANN401  (JSON is of any type)
    """Return the JSON that `benchleaf diagnose` prints."""
    done = run(shop, "diagnose", *arguments, "--format", "json")
    assert (0, "") == (done.returncode, done.stderr)
    return json.loads(done.stdout)


def test_text(shop: Path) -> None:
    """The answer names causes with their shares, the plan with its cost, and each cure beside a new device."""
    done = run(shop, "diagnose", "godwit", "no-charge")

    assert (0, "") == (done.returncode, done.stderr)
    assert done.stdout.startswith("godwit, no-charge, on g1\n")
    assert "   58 % (41–74)  Corroded charge port, seen 14 times\n" in done.stdout
    assert "min at the bench, cured in 63 %; no plan is cheaper.\n" in done.stdout
    assert "\nNext: charge-current (closed): Read the current" in done.stdout
    assert "\nWhy: What it shows decides what is worth doing next: with it first," in done.stdout
    assert "  charge-current at closed: Read the current" in done.stdout
    assert "beside a new one at 640.00" in done.stdout


def test_json(shop: Path) -> None:
    """The JSON has the shares, the expected cost, and the plan as a tree of tests, cures and ends."""
    found = asked(shop, "godwit", "no-charge")

    assert ["corroded-port", "worn-battery", "charge-rail-short"] == [one["cause"] for one in found["causes"]]
    assert [15 / 26, 7 / 26, 4 / 26] == pytest.approx([one["share"] for one in found["causes"]])
    assert found["exact"]
    assert {"value", "unit", "low", "high"} == set(found["expected_cost"])
    assert ("test", "charge-current", "closed") == tuple(found["next"][name] for name in ("kind", "test", "level"))
    assert 1 == pytest.approx(sum(one["probability"] for one in found["next"]["outcomes"]))
    assert found["expected_cost"]["value"] == pytest.approx(found["next"]["cost"])
    assert 0 < found["expected_minutes"]
    assert f"{found['expected_cost']['value']:.2f} EUR" in found["reason"]


def test_outcome_given_is_the_branch_of_the_plan(shop: Path) -> None:
    """Each outcome given leads to what the whole plan says after it, at the cost that it says there."""
    whole = asked(shop, "godwit", "no-charge")["next"]

    given = [asked(shop, "godwit", "no-charge", "--given", f"charge-current={one['outcome']}")
             for one in whole["outcomes"]]  # fmt: skip

    assert [one["next"]["cost"] for one in whole["outcomes"]] == pytest.approx(
        [one["expected_cost"]["value"] for one in given]
    )
    assert [one["next"]["kind"] for one in whole["outcomes"]] == [one["next"]["kind"] for one in given]
    assert [one["shares"] for one in whole["outcomes"]] == [
        {cause["cause"]: pytest.approx(cause["share"]) for cause in one["causes"]} for one in given
    ]


def done_in(node: Any) -> set[str]:  # noqa: ANN401  (see above)
    """Return the tests that a plan may do."""
    if node is None or node["kind"] == "refer":
        return set()
    if node["kind"] == "cure":
        return done_in(node["if_not"])
    return {node["test"]}.union(*(done_in(one["next"]) for one in node["outcomes"]))


def test_wet_device_is_not_fed(shop: Path) -> None:
    """A test that must not be done on what arrived wet is in no branch of the plan."""
    dry, wet = asked(shop, "godwit", "no-charge"), asked(shop, "godwit", "no-charge", "--arrived", "liquid=sea-water")

    assert {"charge-current", "rail-resistance"} == done_in(dry["next"])
    assert set() == done_in(wet["next"])
    assert wet["expected_cost"]["value"] > dry["expected_cost"]["value"]


def test_faults_that_come_together(shop: Path) -> None:
    """Faults that come together are listed, without shares and without a plan."""
    found = asked(shop, "godwit", "got-wet")

    assert [None] * 4 == [one["share"] for one in found["causes"]]
    assert (None, None, True) == (found["next"], found["expected_cost"], found["several"])


def test_records_count(shop: Path) -> None:
    """What bench records count moves the shares."""
    counts = "godwit: {no-charge: {worn-battery: {seen: 40}}}\n"
    (shop / "procedures" / "counts.yml").write_text(counts, encoding="utf-8")

    found = asked(shop, "godwit", "no-charge")

    assert ("worn-battery", pytest.approx(47 / 66)) == (found["causes"][0]["cause"], found["causes"][0]["share"])


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("godwit", "no-chage"), "There is no diagnosis of no-chage on godwit; did you mean no-charge?"),
        (("godwitt", "no-charge"), "There is no device godwitt; did you mean godwit?"),
        (("godwit", "no-charge", "--given", "charge-curent=none"), "There is no test charge-curent in this"),
        (("godwit", "no-charge", "--given", "charge-current=nun"), "charge-current has no outcome nun: there is none"),
        (("godwit", "no-charge", "--given", "charge-current"), "Write TEST=OUTCOME, not charge-current"),
        (("godwit", "no-charge", "--given", "charge-current=none", "--given", "charge-current=high"),
         "charge-current shows none and high"),
        (("godwit", "no-charge", "--arrived", "liquid=beer"), "No liquid arrives beer: there is none"),
        (("godwit", "no-charge", "--arrived", "colour=red"), "Nothing that arrives is called colour"),
        (("godwit", "no-charge", "--variant", "g3"), "godwit has no variant g3"),
    ],
)  # fmt: skip
def test_what_is_not_there(shop: Path, arguments: tuple[str, ...], said: str) -> None:
    """A name that is not there is refused in one line that helps."""
    done = run(shop, "diagnose", *arguments)

    assert (2, "") == (done.returncode, done.stdout)
    assert done.stderr.startswith(f"benchleaf: {said}")
    assert 1 == len(done.stderr.splitlines())


def test_outcomes_that_no_cause_shows(shop: Path) -> None:
    """Outcomes that no cause shows together are refused: a reading is wrong, or a cause is missing."""
    path = "diagnosis/godwit/no-charge.yml"
    shares = "corroded-port: 0.85, worn-battery: 0.05, charge-rail-short: 0.10"
    change(shop, path, shares, "corroded-port: 0, worn-battery: 0, charge-rail-short: 0")

    done = run(shop, "diagnose", "godwit", "no-charge", "--given", "charge-current=none")

    assert (2, "") == (done.returncode, done.stdout)
    assert "No cause of this diagnosis shows these outcomes together" in done.stderr


def test_diagnosis_that_does_not_fit(shop: Path) -> None:
    """A diagnosis that cannot be read is said to be so, with exit code 1; one that cannot be weighed has no plan."""
    change(shop, "diagnosis/dunlin/no-charge.yml", "seen: 13", "seen: often")
    change(shop, "diagnosis/godwit/no-charge.yml", "corroded-port: 0.85", "corroded-port: 0.80")

    unread, uneven = run(shop, "diagnose", "dunlin", "no-charge"), asked(shop, "godwit", "no-charge")

    assert (1, "") == (unread.returncode, unread.stdout)
    assert "`benchleaf check` says what is wrong" in unread.stderr
    assert "the outcomes of `charge-current` do not sum to 1 for `corroded-port`" == uneven["because"]
