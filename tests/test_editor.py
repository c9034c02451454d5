"""What an editor makes of the schemas: the real YAML language server is asked, on a knowledge base that `init` made."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import pytest

from tests.command import run
from tests.conftest import node_module
from tests.language import Editor

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

pytestmark = pytest.mark.outside

BROKEN = """\
# yaml-language-server: $schema=../../../schema/procedure.schema.json
title: Replace the lamp
revison: 4
status: aproved
steps:
  - do: Warm the bond.
    heat: {on: window, tool: heat-mat, at: 70, for: 5 min}
"""


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a knowledge base that was just begun, with one procedure more."""
    folder = tmp_path_factory.mktemp("editor")
    run(folder, "init", "kb")
    run(folder / "kb", "new", "procedure", "knot/replace-cover")
    return folder / "kb"


@pytest.fixture(scope="module")
def editor(shop: Path) -> Iterator[Editor]:
    """Yield an editor that goes by the first line of each file."""
    settings = {"yaml": {"schemaStore": {"enable": False}, "hover": True, "completion": True, "validate": True}}
    with Editor(node_module("yaml-language-server/bin/yaml-language-server"), shop, settings) as opened:
        yield opened


def test_what_init_and_new_write_fits(shop: Path, editor: Editor) -> None:
    """The server finds nothing in any file that `init` and `new` write."""
    files = sorted((shop / "procedures").rglob("*.yml"))

    found = {file.name: editor.open(file, file.read_text("utf-8")) for file in files}

    assert 7 == len(files)
    assert {file.name: [] for file in files} == found


def test_messages(shop: Path, editor: Editor) -> None:
    """A wrong field, a wrong word and a missing unit are said in plain words, each in its line."""
    found = editor.open(shop / "procedures" / "repairs" / "knot" / "broken.yml", BROKEN)

    said = {one["range"]["start"]["line"]: one["message"] for one in found}
    assert {2, 3, 6} == set(said)
    assert "revison" in said[2]
    assert "approved" in said[3]
    assert "°C" in said[6]
    assert not any("pattern" in message or "^" in message for message in said.values())


def test_hover(shop: Path, editor: Editor) -> None:
    """Over a field stand its title, what it means, and an example."""
    file = shop / "procedures" / "repairs" / "knot" / "hover.yml"
    editor.open(file, BROKEN.replace("revison", "revision"))

    told = editor.ask("textDocument/hover", editor.at(file, 2, 3))["contents"]["value"]

    assert "Revision" in told
    assert "The number of this issue of the procedure." in told


def test_completion_and_snippets(shop: Path, editor: Editor) -> None:
    """Fields, allowed words and whole steps are offered."""
    file = shop / "procedures" / "repairs" / "knot" / "complete.yml"
    text = BROKEN.replace("revison: 4\nstatus: aproved\n", "\nstatus: \n") + "  - \n"
    editor.open(file, text)

    fields, words, steps = (
        {item["label"]: item for item in editor.ask("textDocument/completion", editor.at(file, *place))["items"]}
        for place in ((2, 0), (3, 8), (7, 4))
    )

    assert {"fixes", "access", "prove", "materials"} <= set(fields)
    assert {"draft", "in-review", "approved", "withdrawn"} <= set(words)
    assert {"do", "heat", "wait"} <= set(steps)
    assert any("$" in (item.get("textEdit") or {}).get("newText", item.get("insertText", "")) and "do:" in str(item)
               for item in steps.values())  # fmt: skip


def test_mapping_of_the_workspace(shop: Path) -> None:
    """A file without its first line gets its schema from the mapping that `init` writes."""
    settings = json.loads((shop / ".vscode" / "settings.json").read_text("utf-8"))
    yaml = {"schemas": settings["yaml.schemas"], "schemaStore": {"enable": False}, "validate": True}
    text = BROKEN.split("\n", 1)[1]

    with Editor(node_module("yaml-language-server/bin/yaml-language-server"), shop, {"yaml": yaml}) as editor:
        found = editor.open(shop / "procedures" / "repairs" / "knot" / "broken.yml", text)

    assert {1, 2, 5} == {one["range"]["start"]["line"] for one in found}
