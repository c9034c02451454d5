"""What publication promises: all or nothing, the same bytes every time, and by either door."""

from __future__ import annotations

import hashlib
import os
import re
import shutil
import signal
import stat
import subprocess
import time
from typing import TYPE_CHECKING

import pytest
from mkdocs.config import load_config

from benchleaf import build, plugin, publish
from benchleaf.findings import Refused
from benchleaf.pages.draw import drawer
from benchleaf.source.folder import docs_folder, scan
from tests.conftest import COMMAND, ROOT, run

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


def published(base: Path, *, strict: bool = False) -> Path:
    """Publish *base* in this very process, which spares the start of another."""
    return publish.publish(base, build.check(scan(base, docs_folder(base))), strict=strict)


def settings(base: Path, before: str, after: str) -> None:
    """Change *before* in the settings of *base* into *after*."""
    file = base / "mkdocs.yml"
    text = file.read_text(encoding="utf-8")
    assert before in text
    file.write_text(text.replace(before, after), encoding="utf-8")


def test_second_build_gives_the_same_bytes(base: Path, built: Path) -> None:
    """A build in another folder at another time gives the same site, byte for byte."""
    shutil.rmtree(base / "site")

    run(COMMAND, "build", cwd=base)

    assert bytes_of(built / "site") == bytes_of(base / "site")


def test_demonstration_gives_the_same_bytes(demo_copy: Path, tmp_path: Path) -> None:
    """All pages and the search index come out alike in another folder, where sets and maps of names lie otherwise."""
    shutil.copytree(demo_copy, tmp_path / "again", ignore=shutil.ignore_patterns("site"))

    otherwise = {**os.environ, "PYTHONHASHSEED": "1812"}
    subprocess.run([COMMAND, "build"], cwd=tmp_path / "again", env=otherwise, check=True, capture_output=True)

    once, again = (bytes_of(folder / "site") for folder in (demo_copy, tmp_path / "again"))
    assert once == again
    assert {"assets/search-index.js", "methods.html", "register.html"} <= once.keys()


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


def test_names_in_the_frame_of_markdown_pages(base: Path) -> None:
    """The shop's name and the notice stand as text around Markdown pages too, where the theme escapes nothing."""
    shop = base / "procedures" / "shop.yml"
    text = shop.read_text(encoding="utf-8")
    shop.write_text(re.sub("(?m)^name:.*$", "name: '<b>&\"x'", text), encoding="utf-8")
    settings(base, "- benchleaf", "- benchleaf: {notice: '<b>&\"y'}")

    page = (published(base) / "rules" / "index.html").read_text(encoding="utf-8")

    assert "&lt;b&gt;&amp;&#34;x" in page
    assert "&lt;b&gt;&amp;&#34;y" in page
    assert "<b>&" not in page


def test_page_leads_to_its_source(demo_site: Path) -> None:
    """A procedure's page leads to the very file that it was made from."""
    page = (demo_site / "repairs" / "godwit" / "clean-charge-port.html").read_text(encoding="utf-8")

    assert "https://example.invalid/saltmarsh/edit/main/procedures/repairs/godwit/clean-charge-port.yml" in page


def test_template_that_breaks(base: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A fault in a template of ours is loud, and the old site stands with nothing beside it."""
    before = bytes_of(base)
    monkeypatch.setattr(build, "page_drawer", lambda: drawer({"home/page.html": "{{ view.misspelt }}"}))

    with pytest.raises(Exception, match="misspelt"):
        published(base)

    assert before == bytes_of(base)


def test_markdown_page_that_breaks(base: Path) -> None:
    """A Markdown page that cannot be drawn leaves the old site standing."""
    (base / "procedures" / "house.md").write_text("---\ntemplate: nowhere.html\n---\n# House\n", encoding="utf-8")
    before = bytes_of(base)

    with pytest.raises(Exception, match=r"nowhere\.html"):
        published(base)

    assert before == bytes_of(base)


def test_markdown_link_that_leads_nowhere(base: Path) -> None:
    """A broken link in a Markdown page is passed by, and stops a strict build before the old site is touched."""
    (base / "procedures" / "house.md").write_text("# House\n\n[There](nowhere.md)\n", encoding="utf-8")
    before = bytes_of(base)

    with pytest.raises(Refused, match="strict"):
        published(base, strict=True)

    assert before == bytes_of(base)
    assert (published(base) / "house.html").is_file()


def test_markdown_page_in_the_place_of_ours(base: Path) -> None:
    """A Markdown page that would take the place of a drawn one is refused."""
    (base / "procedures" / "devices.md").write_text("# Devices\n", encoding="utf-8")
    before = bytes_of(base)

    with pytest.raises(Refused):
        published(base)

    assert before == bytes_of(base)


@pytest.mark.parametrize("end", [signal.SIGTERM, signal.SIGKILL])
def test_build_that_is_ended(base: Path, end: signal.Signals) -> None:
    """A build that is killed in its middle leaves the old site whole; told to end, it takes what it made with it."""
    before = bytes_of(base / "site")
    a_procedure(base).write_text(a_procedure(base).read_text(encoding="utf-8") + "\n", encoding="utf-8")
    with subprocess.Popen(
        [COMMAND, "build"], cwd=base, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
    ) as running:
        while running.poll() is None and not any(base.glob("site.new-*/*")):
            time.sleep(0.005)
        running.send_signal(end)

    assert running.returncode != 0
    assert before == bytes_of(base / "site")
    assert (end is signal.SIGKILL) is any(base.glob("site.*"))


def test_exchange_that_the_system_lacks(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where two folders cannot change places at one stroke, the new site comes all the same."""
    for name in ("fresh", "site"):
        (tmp_path / name).mkdir()
        (tmp_path / name / name).touch()
    monkeypatch.setattr(publish, "_exchange", lambda *_: False)

    publish._swap(tmp_path / "fresh", tmp_path / "site")

    assert ["site", "site/fresh"] == sorted(path.relative_to(tmp_path).as_posix() for path in tmp_path.rglob("*"))


def test_old_site_comes_back(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the new site cannot be put in its place, the old one is back."""
    (tmp_path / "site").mkdir()
    (tmp_path / "site" / "old").touch()
    monkeypatch.setattr(publish, "_exchange", lambda *_: False)

    with pytest.raises(FileNotFoundError):
        publish._swap(tmp_path / "nothing", tmp_path / "site")

    assert ["site", "site/old"] == sorted(path.relative_to(tmp_path).as_posix() for path in tmp_path.rglob("*"))


def test_site_in_a_folder_that_is_not_there(base: Path, built: Path) -> None:
    """The folder of the site is made where the settings want it."""
    settings(base, "docs_dir:", "site_dir: out/deep/site\ndocs_dir:")

    assert base / "out" / "deep" / "site" == published(base)
    assert bytes_of(built / "site") == bytes_of(base / "out" / "deep" / "site")


def test_site_that_is_a_link(base: Path) -> None:
    """Where the site's folder is a link, what it leads to is changed and the link stays."""
    (base / "site").rename(base / "real")
    (base / "site").symlink_to("real")
    (base / "real" / "index.html").write_text("yesterday", encoding="utf-8")

    published(base)

    assert (base / "site").is_symlink()
    assert "yesterday" != (base / "real" / "index.html").read_text(encoding="utf-8")


def test_site_that_is_a_file(base: Path) -> None:
    """A file where the site belongs is not written over."""
    settings(base, "docs_dir:", "site_dir: notes.txt\ndocs_dir:")
    (base / "notes.txt").write_text("mine", encoding="utf-8")

    with pytest.raises(Refused, match=r"notes\.txt is a file"):
        published(base)

    assert "mine" == (base / "notes.txt").read_text(encoding="utf-8")


def test_what_begins_with_a_dot_stays(base: Path) -> None:
    """What begins with a dot in the site's folder, such as the history of a branch that is served, stays there."""
    (base / "site" / ".git").mkdir()
    (base / "site" / ".git" / "HEAD").write_text("ref", encoding="utf-8")
    (base / "site" / "gone.html").touch()

    published(base)

    assert "ref" == (base / "site" / ".git" / "HEAD").read_text(encoding="utf-8")
    assert not (base / "site" / "gone.html").exists()


def test_everyone_may_read_the_site(base: Path) -> None:
    """A server that runs as someone else can read the site."""
    shutil.rmtree(base / "site")

    site = published(base)

    assert 0o755 == stat.S_IMODE(site.stat().st_mode)
    assert [] == [path for path in site.rglob("*") if not path.stat().st_mode & stat.S_IROTH]


@pytest.mark.parametrize(
    ("before", "after", "said"),
    [
        ("use_directory_urls: false", "use_directory_urls: true", "Write `use_directory_urls: false`"),
        ("name: material", "name: mkdocs", "Write `theme: {name: material}`"),
        ("- benchleaf", "[]", r"write `plugins: \[benchleaf\]`"),
        ("site_name:", "site_name: [", "cannot be used"),
    ],
    ids=["directory urls", "theme", "plugin", "syntax"],
)
def test_settings_that_make_no_site(base: Path, before: str, after: str, said: str) -> None:
    """Settings that make no site of ours are refused with what to write instead."""
    settings(base, before, after)

    with pytest.raises(Refused, match=said):
        published(base)


def test_partial_build_is_refused(base: Path) -> None:
    """MkDocs' own shortcut would leave stale lists: it is refused in one line, and the site stands."""
    before = bytes_of(base / "site")

    said = run(MKDOCS, "build", "--dirty", cwd=base)

    assert "Error: Benchleaf does not build with --dirty: lists and search would keep what is gone." in said.stderr
    assert 0 != said.returncode
    assert "Traceback" not in said.stderr
    assert before == bytes_of(base / "site")


def test_warning_at_the_other_door(base: Path) -> None:
    """MkDocs' command shows our warnings; its strict build stops at them, before it empties anything."""
    before = bytes_of(base / "site")
    (base / "procedures" / "symptoms.yml").write_text("odd-smell: {title: Smells odd}\n", encoding="utf-8")
    file = a_procedure(base)
    lines = file.read_text(encoding="utf-8").splitlines()
    file.write_text("\n".join(line for line in lines if not line.startswith("fixes:")), encoding="utf-8")

    said = run(MKDOCS, "build", "--strict", cwd=base)

    assert "warning unanswered-symptom" in said.stderr
    assert 0 != said.returncode
    assert before == bytes_of(base / "site")


@pytest.mark.slow
def test_demonstration_passes_a_strict_build(tmp_path: Path) -> None:
    """Nothing in the demonstration makes MkDocs warn."""
    said = run(MKDOCS, "build", "--strict", "--site-dir", tmp_path / "site", cwd=ROOT)

    assert 0 == said.returncode, said.stderr


@pytest.mark.parametrize(
    ("written", "address"),
    [
        ("", ""),
        ("edit_uri_template: https://x.invalid/{path}", "https://x.invalid/{path}"),
        ("edit_uri_template: edit/{path!q}", ""),
        ("repo_url: https://x.invalid/kb\nedit_uri: edit/main", "https://x.invalid/kb/edit/main/{path}"),
        ("repo_url: https://x.invalid/kb\nedit_uri_template: '?file={path!q}'", "https://x.invalid/kb?file={path!q}"),
        ("edit_uri: https://x.invalid/edit/", "https://x.invalid/edit/{path}"),
    ],
    ids=["nothing", "template", "template of no host", "below the repository", "query", "address"],
)
def test_address_of_a_source(tmp_path: Path, written: str, address: str) -> None:
    """Where "edit this page" leads follows MkDocs' own settings."""
    (tmp_path / "docs").mkdir()
    file = tmp_path / "mkdocs.yml"
    file.write_text(f"site_name: Shop\n{written}\n", encoding="utf-8")

    assert address == plugin._edit(load_config(str(file)))
