"""What a shop gets from `pip install benchleaf`: the whole way, with nothing of this checkout."""

from __future__ import annotations

import os
import subprocess
import sys
import zipfile
from typing import TYPE_CHECKING

import pytest

from tests.conftest import ROOT, run

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

# All tests of this file in one process: the wheel is made and installed once.
pytestmark = [pytest.mark.slow, pytest.mark.xdist_group("wheel")]


def done(*arguments: str | Path, cwd: Path) -> str:
    """Run a command that must succeed and return what it printed."""
    said = run(*arguments, cwd=cwd)
    assert said.returncode == 0, f"{arguments}\n{said.stdout}{said.stderr}"
    return said.stdout


@pytest.fixture(scope="session")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the wheel, made from this checkout."""
    folder = tmp_path_factory.mktemp("wheel")
    done(sys.executable, "-m", "build", "--wheel", "--no-isolation", "--outdir", folder, ROOT, cwd=folder)
    return next(folder.glob("*.whl"))


@pytest.fixture(scope="session")
def shop(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a folder with a new environment in `env`, where the wheel alone is installed."""
    folder = tmp_path_factory.mktemp("shop")
    done(sys.executable, "-m", "venv", folder / "env", cwd=folder)
    done(folder / "env" / "bin" / "python", "-m", "pip", "install", "--quiet", wheel, cwd=folder)
    return folder


@pytest.fixture(scope="session")
def knowledge(shop: Path) -> Path:
    """Return the knowledge base that `benchleaf init` makes there."""
    benchleaf(shop, "init", "kb")
    return shop / "kb"


def benchleaf(shop: Path, *arguments: str, inside: Sequence[str] = ()) -> str:
    """Run the installed command in *shop*, where no checkout is in sight."""
    clean = {name: value for name, value in os.environ.items() if not name.startswith("PYTHON")}
    said = subprocess.run(
        [shop / "env" / "bin" / "benchleaf", *arguments],
        cwd=shop.joinpath(*inside),
        env=clean,
        text=True,
        capture_output=True,
        check=False,
        timeout=120,
    )
    assert said.returncode == 0, said.stdout + said.stderr
    return said.stdout


def test_wheel_carries_all_that_runs(wheel: Path) -> None:
    """The wheel holds every module, schema, template and asset of the checkout, and nothing of its tests."""
    inside = {name for name in zipfile.ZipFile(wheel).namelist() if not name.endswith("/")}
    brought = {
        "generator/benchleaf": "benchleaf",
        "schema": "benchleaf/_schema",
        "site_overrides": "benchleaf/_site_overrides",
    }
    wanted = {
        f"{there}/{path.relative_to(ROOT / here).as_posix()}"
        for here, there in brought.items()
        for path in (ROOT / here).rglob("*")
        if path.is_file() and "__pycache__" not in path.parts
    }

    assert set() == wanted - inside
    assert {"benchleaf"} == {name.split("/")[0] for name in inside if ".dist-info/" not in name}


def test_new_knowledge_base_is_clean(shop: Path, knowledge: Path) -> None:
    """What `init` writes passes its own check."""
    said = benchleaf(shop, "check", inside=[knowledge.name])

    assert "error" not in said


def test_new_knowledge_base_builds(shop: Path, knowledge: Path) -> None:
    """What `init` writes becomes a site with a procedure in it."""
    benchleaf(shop, "build", inside=[knowledge.name])

    site = knowledge / "site"
    assert (site / "index.html").is_file()
    assert list((site / "repairs").rglob("*.html"))
