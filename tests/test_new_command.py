"""`benchleaf new` and `init` as an author meets them: drafts that pass, nothing overwritten, what to fill in named."""

from __future__ import annotations

import json
import shutil
from typing import TYPE_CHECKING

import pytest

from tests.command import run
from tests.conftest import ROOT

if TYPE_CHECKING:
    from pathlib import Path


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """Return a copy of the demonstration."""
    shutil.copytree(ROOT / "procedures", tmp_path / "procedures")
    shutil.copy(ROOT / "mkdocs.yml", tmp_path)
    return tmp_path


def test_init(tmp_path: Path) -> None:
    """The first three commands of a knowledge base end with 0, and all that it needs lies there."""
    done = [run(tmp_path, "init", "kb"), run(tmp_path / "kb", "check", "--strict"), run(tmp_path / "kb", "build")]

    assert [0, 0, 0] == [one.returncode for one in done]
    assert "" == done[1].stdout
    for name in ("mkdocs.yml", ".pre-commit-config.yaml", ".gitlab-ci.yml", ".github/workflows/benchleaf.yml",
                 ".vscode/settings.json", ".gitignore", "schema/procedure.schema.json", "site/index.html"):  # fmt: skip
        assert (tmp_path / "kb" / name).is_file(), name


def test_init_refuses(tmp_path: Path) -> None:
    """A folder that holds something is left as it is."""
    (tmp_path / "note.txt").write_text("mine\n", encoding="utf-8")

    done = run(tmp_path, "init", ".")

    assert 2 == done.returncode
    assert ["note.txt"] == [path.name for path in tmp_path.iterdir()]


def test_every_file_names_its_schema(tmp_path: Path) -> None:
    """Each file begins with the line that tells an editor its schema, and the mapping of the workspace agrees."""
    run(tmp_path, "init", "kb")
    run(tmp_path / "kb", "new", "device", "godwit")
    run(tmp_path / "kb", "new", "procedure", "godwit/look")
    run(tmp_path / "kb", "new", "diagnosis", "godwit/runs-out-early")
    mapping = json.loads((tmp_path / "kb" / ".vscode" / "settings.json").read_text("utf-8"))["yaml.schemas"]

    files = sorted((tmp_path / "kb" / "procedures").rglob("*.yml"))
    named = {
        path: (path.parent / path.read_text("utf-8").splitlines()[0].removeprefix(
            "# yaml-language-server: $schema=")).resolve() for path in files
    }  # fmt: skip
    mapped = {
        path: (tmp_path / "kb" / schema).resolve()
        for schema, globs in mapping.items() for glob in globs for path in (tmp_path / "kb").glob(glob)
    }  # fmt: skip
    assert 9 == len(files)
    assert all(schema.is_file() for schema in named.values())
    assert named == mapped


@pytest.mark.parametrize("device", ["godwit", "any"])
def test_procedure(shop: Path, device: str) -> None:
    """A new procedure passes the strict check as a draft and offers levels, parts, tools and symptoms."""
    done = run(shop, "new", "procedure", f"{device}/mend-the-lanyard")
    checked = run(shop, "check", "--strict")

    path = shop / "procedures" / "repairs" / device / "mend-the-lanyard.yml"
    text = path.read_text(encoding="utf-8")
    assert (0, 0, "") == (done.returncode, checked.returncode, checked.stdout)
    assert "title: Mend the lanyard " in text
    assert "status: draft " in text
    assert ("# Levels of the" in text) == ("# Parts of the" in text) == (device != "any")
    assert "# Symptoms: no-charge (Does not charge)," in text
    first = done.stdout.splitlines()[0]
    line = int(first.split(":")[1])
    assert text.splitlines()[line - 1].startswith("title: ")
    assert f"procedures/repairs/{device}/mend-the-lanyard.yml is a draft." in done.stderr


def test_device_and_what_stands_on_it(tmp_path: Path) -> None:
    """A new device, a procedure for it and a diagnosis on it pass the strict check together, and the site builds."""
    run(tmp_path, "init", "kb")
    kb = tmp_path / "kb"

    done = [
        run(kb, "new", kind, path)
        for kind, path in (
            ("device", "godwit"),
            ("procedure", "godwit/replace-cover"),
            ("diagnosis", "godwit/runs-out-early"),
        )
    ]
    checked, built = run(kb, "check", "--strict"), run(kb, "build")

    assert [0, 0, 0] == [one.returncode for one in done]
    assert (0, "", 0) == (checked.returncode, checked.stdout, built.returncode)
    assert "access: open " in (kb / "procedures/repairs/godwit/replace-cover.yml").read_text("utf-8")
    assert "has no status: it is on the site as soon as that is built" in done[0].stderr


def test_diagnosis_offers_cures(shop: Path) -> None:
    """A new diagnosis begins with the procedures that cure the symptom."""
    (shop / "procedures" / "diagnosis" / "godwit" / "no-charge.yml").unlink()

    done = run(shop, "new", "diagnosis", "procedures/diagnosis/godwit/no-charge.yml")

    assert (0, 0) == (done.returncode, run(shop, "check", "--strict").returncode)
    text = (shop / "procedures" / "diagnosis" / "godwit" / "no-charge.yml").read_text("utf-8")
    assert "cures: [{procedure: clean-charge-port}]" in text


def test_nothing_is_overwritten(shop: Path) -> None:
    """A file that is there, and an editor's own settings, stay as they are."""
    (shop / ".vscode").mkdir()
    (shop / ".vscode" / "settings.json").write_text("{}\n", encoding="utf-8")
    before = (shop / "procedures" / "repairs" / "godwit" / "clean-charge-port.yml").read_bytes()

    there = run(shop, "new", "procedure", "godwit/clean-charge-port")
    new = run(shop, "new", "procedure", "godwit/look")

    assert (2, 0) == (there.returncode, new.returncode)
    assert "is there already and is left as it is" in there.stderr
    assert before == (shop / "procedures" / "repairs" / "godwit" / "clean-charge-port.yml").read_bytes()
    assert "{}\n" == (shop / ".vscode" / "settings.json").read_text("utf-8")


@pytest.mark.parametrize(
    ("kind", "path", "why"),
    [
        ("procedure", "godwitt/look", "The device godwitt is not there; did you mean godwit?"),
        ("procedure", "godwit", "is no place for a procedure: write repairs/DEVICE/PROCEDURE.yml"),
        ("procedure", "godwit/Look", "Look is no name: write small letters and digits"),
        ("device", "procedures/repairs/godwit/look.yml", "is no place for a device: write devices/DEVICE.yml"),
        ("diagnosis", "godwit/no-chargee", "The symptom no-chargee is not there; did you mean no-charge?"),
        ("procedure", "../elsewhere/look.yml", "is no place for a procedure"),
    ],
)
def test_refused(shop: Path, kind: str, path: str, why: str) -> None:
    """What cannot be a draft here is refused in one line that says what to write, and no file is made."""
    before = sorted(shop.rglob("*"))

    done = run(shop, "new", kind, path)

    assert (2, "") == (done.returncode, done.stdout)
    assert why in done.stderr
    assert 1 == len(done.stderr.strip().splitlines())
    assert before == sorted(shop.rglob("*"))
