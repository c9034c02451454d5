"""What all tests share: where things are, one built demonstration, and how a missing tool is told."""

from __future__ import annotations

import fcntl
import os
import shutil
import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import pytest

if TYPE_CHECKING:
    from collections.abc import Generator

ROOT = Path(__file__).resolve().parent.parent
COMMAND = Path(sys.executable).with_name("benchleaf")
IN_CI = os.environ.get("CI") == "true"


def lacking(what: str, package: str) -> NoReturn:
    """End a test that needs *what*: by a skip on a person's machine, by a failure in CI."""
    reason = f"{what} is missing; on Debian: apt-get install {package}"
    if IN_CI:
        pytest.fail(reason, pytrace=False)
    pytest.skip(reason)


def tool(name: str, package: str) -> str:
    """Return the path of the program *name*, which Debian's *package* brings."""
    path = shutil.which(name)
    if path is None:
        lacking(name, package)
    return path


def node_module(path: str) -> Path:
    """Return the file at *path* below node_modules."""
    file = ROOT / "node_modules" / path
    if not file.is_file():
        lacking(f"node_modules/{path}", "nodejs npm, then `make node_modules/.stamp`")
    return file


def run(*arguments: str | Path, cwd: Path) -> subprocess.CompletedProcess[str]:
    """Run a command of ours to its end and return what it said."""
    # The theme's notice about its own future would stand between our lines.
    quiet = {**os.environ, "NO_MKDOCS_2_WARNING": "1"}
    return subprocess.run(arguments, cwd=cwd, env=quiet, text=True, capture_output=True, check=False, timeout=300)


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(item: pytest.Item) -> Generator[None, pytest.TestReport, pytest.TestReport]:
    """Turn the skip of a browser test into a failure where nobody would notice it: in CI."""
    report = yield
    if IN_CI and report.skipped and not hasattr(report, "wasxfail") and item.get_closest_marker("browser"):
        report.outcome = "failed"
        report.longrepr = f"A browser test may not be skipped in CI: {report.longrepr}"
    return report


@pytest.fixture(scope="session")
def demo_copy(tmp_path_factory: pytest.TempPathFactory, worker_id: str) -> Path:
    """Return a folder with a copy of the demonstration, built into its `site`; all workers share one."""
    base = tmp_path_factory.getbasetemp()
    # Each worker has a folder of its own in the folder of the whole run.
    home = (base if worker_id == "master" else base.parent) / "demonstration"
    home.mkdir(exist_ok=True)
    with (home / "lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not (home / "built").exists():
            shutil.copy(ROOT / "mkdocs.yml", home)
            shutil.copytree(ROOT / "procedures", home / "procedures", dirs_exist_ok=True)
            said = run(COMMAND, "build", cwd=home)
            assert said.returncode == 0, f"`benchleaf build` of the demonstration failed\n{said.stdout}{said.stderr}"
            (home / "built").touch()
    return home


@pytest.fixture(scope="session")
def demo_site(demo_copy: Path) -> Path:
    """Return the folder of the built demonstration."""
    return demo_copy / "site"
