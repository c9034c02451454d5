"""`benchleaf facts` as its callers meet it: what it says, and what it says when there is nothing to say."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import pytest

from tests.test_cli import change, run, shop

if TYPE_CHECKING:
    from pathlib import Path

__all__ = ["shop"]


def test_facts(shop: Path) -> None:
    """Facts of a procedure go to stdout, for people or for programs, of all its variants or of one."""
    text = run(shop, "facts", "godwit/clean-charge-port")
    whole = json.loads(run(shop, "facts", "godwit/clean-charge-port", "--format", "json").stdout)
    one = json.loads(run(shop, "facts", "godwit/clean-charge-port", "--variant", "g2", "--format", "json").stdout)

    assert (0, "") == (text.returncode, text.stderr)
    assert text.stdout.startswith("godwit/clean-charge-port, revision 4, approved\n")
    assert ["g1", "g2"] == list(whole["variants"])
    assert {"g2": whole["variants"]["g2"]} == one["variants"]


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("godwit/renew-seal",), "There is no procedure godwit/renew-seal; did you mean godwit/renew-case-seal?"),
        (("godwitt/clean-charge-port",), "There is no device godwitt; did you mean godwit?"),
        (("godwit/clean-charge-port", "--variant", "g3"), "godwit/clean-charge-port has no variant g3: there is g1"),
        (("any/check-charge-hold", "--variant", "g1"), "any/check-charge-hold has no variant g1: there is any"),
        (("clean-charge-port",), "Write DEVICE/PROCEDURE"),
    ],
)  # fmt: skip
def test_facts_of_what_is_not_there(shop: Path, arguments: tuple[str, ...], said: str) -> None:
    """A procedure, device or variant that is not there is refused in one line that names the nearest."""
    done = run(shop, "facts", *arguments)

    assert (2, "") == (done.returncode, done.stdout)
    assert done.stderr.startswith(f"benchleaf: {said}")
    assert 1 == len(done.stderr.splitlines())


def test_facts_beside_findings(shop: Path) -> None:
    """What is wrong elsewhere keeps no facts back, and what is wrong in the procedure's own is told beside them."""
    change(shop, "devices/dunlin.yml", "heat_limit: 60 °C", "heat_limit: 60")
    change(shop, "repairs/godwit/clean-charge-port.yml", "for: 2 min, until: dry", "for: 2 s, until: dry")

    sound, unsound = run(shop, "facts", "godwit/replace-battery"), run(shop, "facts", "godwit/clean-charge-port")

    assert (0, "") == (sound.returncode, sound.stderr)
    assert 0 == unsound.returncode
    assert unsound.stdout
    assert "from being published" in unsound.stderr


@pytest.mark.parametrize(("path", "line"), [("repairs/dunlin/replace-battery.yml", "access: open"),
                                            ("devices/dunlin.yml", "price: 480 EUR")])  # fmt: skip
def test_facts_of_what_cannot_be_performed(shop: Path, path: str, line: str) -> None:
    """A procedure whose file, or whose device's, does not fit is there and cannot be performed: one line says so."""
    change(shop, path, line, f"{line}\nnonsense: 4")

    done = run(shop, "facts", "dunlin/replace-battery")

    assert (1, "") == (done.returncode, done.stdout)
    assert ["dunlin/replace-battery cannot be performed as it is written: `benchleaf check` says what is wrong."] == (
        done.stderr.splitlines()
    )


def test_facts_of_a_withdrawn_procedure(shop: Path) -> None:
    """Facts of a withdrawn procedure say that nobody works by it."""
    change(shop, "repairs/dunlin/copy-surveys.yml", "status: approved", "status: withdrawn")

    done = run(shop, "facts", "dunlin/copy-surveys", "--format", "json")

    assert "withdrawn" == json.loads(done.stdout)["status"]
    assert "dunlin/copy-surveys is withdrawn" in done.stderr
