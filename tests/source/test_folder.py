"""Which files are read, as what, and in which order."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from benchleaf.findings import Refused
from benchleaf.source.folder import docs_folder, find_root, identify, scan

if TYPE_CHECKING:
    from pathlib import Path


@pytest.mark.parametrize(
    ("path", "kind"),
    [
        ("shop.yml", ("shop", "", "shop")),
        ("counts.yml", ("counts", "", "counts")),
        ("devices/godwit.yml", ("device", "godwit", "godwit")),
        ("repairs/godwit/clean.yml", ("procedure", "godwit", "clean")),
        ("repairs/any/look.yml", ("procedure", "any", "look")),
        ("diagnosis/godwit/no-charge.yml", ("diagnosis", "godwit", "no-charge")),
        ("shop.yaml", ("", "", "shop")),
        ("shops.yml", ("", "", "shops")),
        ("devices/godwit/clean.yml", ("", "", "clean")),
        ("repairs/clean.yml", ("", "", "clean")),
        ("repairs/godwit/old/clean.yml", ("", "", "clean")),
        ("media/plan.yml", ("", "", "plan")),
    ],
)
def test_path_is_identity(path: str, kind: tuple[str, str, str]) -> None:
    """A file's path gives its kind, its device and its name; elsewhere it has no kind."""
    assert kind == identify(path)


def test_scan(tmp_path: Path) -> None:
    """All YAML files are read in the order of their paths, others are listed, and what begins with a dot is not."""
    for name in ("mkdocs.yml", "docs/tools.yml", "docs/devices/b.yml", "docs/devices/a.yml", "docs/media/x.svg",
                 "docs/.cache/y.yml", "docs/odd.yaml"):  # fmt: skip
        path = tmp_path / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text("title: x\n", encoding="utf-8")

    folder = scan(tmp_path, "docs")

    paths = ["docs/devices/a.yml", "docs/devices/b.yml", "docs/odd.yaml", "docs/tools.yml"]
    assert paths == [file.path for file in folder.files]
    assert {"media/x.svg"} == folder.others


@pytest.mark.parametrize(
    ("settings", "docs"),
    [
        ("site_name: x\n", "docs"),
        ("docs_dir: procedures\n", "procedures"),
        ("docs_dir: 'my procedures'  # ours\n", "my procedures"),
        ("docs_dir: bench/procedures/\n", "bench/procedures"),
        ("# docs_dir: old\ndocs_dir: new # docs_dir: other\n", "new"),
    ],
)
def test_docs_folder(tmp_path: Path, settings: str, docs: str) -> None:
    """The docs folder is the one that MkDocs' settings name, or MkDocs' own."""
    (tmp_path / "mkdocs.yml").write_text(settings, encoding="utf-8")

    assert docs == docs_folder(tmp_path)


def test_find_root(tmp_path: Path) -> None:
    """The knowledge base is found from any folder or file inside it."""
    (tmp_path / "mkdocs.yml").touch()
    (tmp_path / "docs" / "devices").mkdir(parents=True)
    (tmp_path / "docs" / "shop.yml").touch()

    roots = {find_root(tmp_path / name) for name in (".", "docs", "docs/devices", "docs/shop.yml")}

    assert {tmp_path.resolve()} == roots


def test_no_root(tmp_path: Path) -> None:
    """Outside a knowledge base nothing is guessed: it is refused, with what to do."""
    with pytest.raises(Refused, match="benchleaf init"):
        find_root(tmp_path)


def test_no_such_start(tmp_path: Path) -> None:
    """A path that does not exist is refused by its name."""
    with pytest.raises(Refused, match="nowhere"):
        find_root(tmp_path / "nowhere")


@pytest.mark.parametrize("made", [[], ["docs"]], ids=["no folder", "an empty folder"])
def test_nothing_to_scan(tmp_path: Path, made: list[str]) -> None:
    """A docs folder that is not there, or holds no YAML, is refused."""
    for name in made:
        (tmp_path / name).mkdir()

    with pytest.raises(Refused):
        scan(tmp_path, "docs")
