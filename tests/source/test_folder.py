"""Which files are read, as what, and in which order."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from benchleaf.findings import Refused
from benchleaf.source.folder import docs_folder, find_root, identify, scan


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
        ("shop.YML", ("", "", "shop")),
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


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """Return the docs folder of a knowledge base of one file."""
    docs = tmp_path / "kb" / "docs"
    docs.mkdir(parents=True)
    (docs / "shop.yml").write_text("name: Shop\n", encoding="utf-8")
    (docs.parent / "mkdocs.yml").write_text("site_name: x\n", encoding="utf-8")
    return docs


def test_link_that_leads_round(shop: Path) -> None:
    """Two folders that are linked into each other are refused by name, not read without end."""
    for one, other in (("a", "b"), ("b", "a")):
        (shop / one).mkdir()
        (shop / one / "on").symlink_to(shop / other)

    with pytest.raises(Refused, match=r"docs/[ab]/on/on is a link to a folder above it"):
        scan(shop.parent, "docs")


def test_link_that_leads_nowhere(shop: Path) -> None:
    """A link to what is gone is refused by name: MkDocs would fail on it with half a site made."""
    (shop / "picture.svg").symlink_to("gone.svg")

    with pytest.raises(Refused, match=r"picture\.svg is neither a file nor a folder"):
        scan(shop.parent, "docs")


def test_link_into_another_folder(shop: Path, tmp_path: Path) -> None:
    """A folder that is linked in is read like any other, and a file in it belongs where it is linked."""
    (tmp_path / "shared").mkdir()
    (tmp_path / "shared" / "godwit.yml").write_text("title: Godwit\n", encoding="utf-8")
    (shop / "devices").symlink_to(tmp_path / "shared")

    folder = scan(shop.parent, "docs")

    assert ["docs/devices/godwit.yml", "docs/shop.yml"] == [file.path for file in folder.files]
    assert shop.parent == find_root(shop / "devices" / "godwit.yml")


def test_name_that_is_no_text(shop: Path) -> None:
    """A name that is not UTF-8 is refused with its odd byte shown as a code: no page could be called so."""
    Path(os.fsdecode(os.fsencode(shop) + b"/caf\xe9.yml")).touch()

    with pytest.raises(Refused, match=r"caf\\udce9\.yml holds what is no text"):
        scan(shop.parent, "docs")


def test_name_in_any_script(shop: Path) -> None:
    """A name in another script or with a narrow space, as screens are photographed on some systems, is no trouble."""
    names = {"\u5199\u771f.png", "Screen 3.05\u202fPM.png", "\U0001f469\u200d\U0001f527.svg"}
    for name in names:
        (shop / name).touch()

    assert names == scan(shop.parent, "docs").others


def test_file_that_may_not_be_read(shop: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A file that may not be read is refused by its name and the system's reason."""

    def forbidden(_: Path) -> bytes:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "read_bytes", forbidden)

    with pytest.raises(Refused, match=r"shop\.yml cannot be read: Permission denied"):
        scan(shop.parent, "docs")


def test_folder_that_may_not_be_read(shop: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A folder that may not be read is refused: what lies in it would go unchecked."""

    def forbidden(_: Path) -> list[Path]:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "iterdir", forbidden)

    with pytest.raises(Refused, match="docs cannot be read: Permission denied"):
        scan(shop.parent, "docs")
