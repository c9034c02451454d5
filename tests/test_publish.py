"""What publication promises: all or nothing, the same bytes every time, and by either door."""

from __future__ import annotations

import hashlib
import shutil
from typing import TYPE_CHECKING

import pytest

from tests.conftest import COMMAND, run

if TYPE_CHECKING:
    from pathlib import Path

MKDOCS = COMMAND.with_name("mkdocs")


def bytes_of(site: Path) -> dict[str, str]:
    """Return a digest of each file below *site*, by its path."""
    return {
        path.relative_to(site).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in sorted(site.rglob("*"))
        if path.is_file()
    }


@pytest.fixture(scope="session")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a new knowledge base, as `init` makes it, with its site."""
    folder = tmp_path_factory.mktemp("shop") / "kb"
    run(COMMAND, "init", folder, cwd=folder.parent)
    said = run(COMMAND, "build", cwd=folder)
    assert said.returncode == 0, said.stdout + said.stderr
    return folder


@pytest.fixture
def base(built: Path, tmp_path: Path) -> Path:
    """Return a copy of it that a test may spoil."""
    return shutil.copytree(built, tmp_path / "kb")


def a_procedure(base: Path) -> Path:
    """Return the file of one procedure."""
    return min(base.glob("procedures/repairs/*/*.yml"))


def test_second_build_gives_the_same_bytes(base: Path, built: Path) -> None:
    """A build in another folder at another time gives the same site, byte for byte."""
    shutil.rmtree(base / "site")

    run(COMMAND, "build", cwd=base)

    assert bytes_of(built / "site") == bytes_of(base / "site")


def test_both_doors_lead_to_the_same_site(base: Path, built: Path) -> None:
    """`mkdocs build` publishes what `benchleaf build` publishes."""
    shutil.rmtree(base / "site")

    run(MKDOCS, "build", cwd=base)

    assert bytes_of(built / "site") == bytes_of(base / "site")


def test_finding_leaves_the_old_site_standing(base: Path) -> None:
    """A finding that stops publication ends with 1, and the site of yesterday is untouched."""
    before = bytes_of(base / "site")
    a_procedure(base).write_text("title: [\n", encoding="utf-8")

    said = run(COMMAND, "build", cwd=base)

    assert said.returncode == 1
    assert before == bytes_of(base / "site")


def test_finding_leaves_the_old_site_standing_for_mkdocs_too(base: Path) -> None:
    """The other door refuses as well, before it empties anything."""
    before = bytes_of(base / "site")
    a_procedure(base).write_text("title: [\n", encoding="utf-8")

    said = run(MKDOCS, "build", cwd=base)

    assert said.returncode != 0
    assert before == bytes_of(base / "site")


def test_nothing_is_left_beside_the_site(base: Path) -> None:
    """A build, good or refused, leaves no half-made site behind."""
    before = sorted(base.iterdir())

    run(COMMAND, "build", cwd=base)
    a_procedure(base).write_text("title: [\n", encoding="utf-8")
    run(COMMAND, "build", cwd=base)

    assert before == sorted(base.iterdir())


def test_text_is_shown_as_it_is_written(base: Path) -> None:
    """What an author writes is shown as text, even where it looks like HTML."""
    file = a_procedure(base)
    lines = file.read_text(encoding="utf-8").splitlines()
    lines = ["title: '<img src=x onerror=alert(1)>'" if line.startswith("title:") else line for line in lines]
    file.write_text("\n".join(lines), encoding="utf-8")

    run(COMMAND, "build", cwd=base)

    pages = [path.read_text(encoding="utf-8") for path in (base / "site").rglob("*.html")]
    assert any("&lt;img src=x" in text for text in pages)
    assert not any("<img src=x" in text for text in pages)


def test_page_leads_to_its_source(demo_site: Path) -> None:
    """A procedure's page leads to the very file that it was made from."""
    page = (demo_site / "repairs" / "godwit" / "clean-charge-port.html").read_text(encoding="utf-8")

    assert "https://example.invalid/saltmarsh/edit/main/procedures/repairs/godwit/clean-charge-port.yml" in page
