"""The site's scripts: their pure parts by Node's own test runner, their types by TypeScript."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.conftest import ROOT, node_module, run, tool

if TYPE_CHECKING:
    from pathlib import Path

TESTS = sorted((ROOT / "tests" / "js").glob("*.test.mjs"))
SCRIPTS = sorted((ROOT / "site_overrides" / "assets").rglob("*.js"))
# Classic scripts for the browsers of today; Node's types only because our scripts can be asked for their pure parts.
FLAGS = ("--allowJs", "--checkJs", "--noEmit", "--strict", "--moduleDetection", "force")
TYPES = ("--target", "es2022", "--lib", "es2022,dom,dom.iterable", "--types", "node")


@pytest.mark.parametrize("file", TESTS, ids=lambda file: file.name)
def test_script(file: Path) -> None:
    """Each file of script tests passes."""
    said = run(tool("node", "nodejs"), "--test", file, cwd=ROOT)

    assert said.returncode == 0, said.stdout + said.stderr


def test_types_of_scripts() -> None:
    """The types that the scripts declare in their comments hold, in every script."""
    compiler = node_module("typescript/bin/tsc")

    said = run(tool("node", "nodejs"), compiler, *FLAGS, *TYPES, *SCRIPTS, cwd=ROOT)

    assert said.returncode == 0, said.stdout + said.stderr


@pytest.mark.parametrize("file", SCRIPTS, ids=lambda file: file.name)
def test_script_asks_for_its_types(file: Path) -> None:
    """Each script says that its types are checked, so an editor checks them too."""
    assert "// @ts-check" == file.read_text("utf-8").splitlines()[0]
