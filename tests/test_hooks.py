"""The hooks that we offer for pre-commit: read and run by pre-commit itself."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from typing import TYPE_CHECKING

import pytest
import yaml
from pre_commit.clientlib import load_manifest

from benchleaf.source import packaged
from tests.conftest import COMMAND, ROOT
from tests.test_cli import change

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

MANIFEST = ROOT / ".pre-commit-hooks.yaml"


@pytest.fixture(name="commit")
def commits(tmp_path: Path) -> Callable[..., subprocess.CompletedProcess[str]]:
    """Return what runs a hook on what a commit would hold: a new knowledge base in git, with what was changed in it."""
    shop = tmp_path / "kb"
    shutil.copytree(packaged.starter(), shop)
    (shop / "other.yml").write_text("a: [1\n")
    # As a hook of the machine: what is tested is which files are named and what the entry makes of them.
    hooks = [{**hook, "language": "system"} for hook in yaml.safe_load(MANIFEST.read_text("utf-8"))]
    settings = {"repos": [{"repo": "local", "hooks": hooks}]}
    (shop / ".pre-commit-config.yaml").write_text(yaml.safe_dump(settings), encoding="utf-8")
    home = {"PRE_COMMIT_HOME": str(tmp_path / "home"), "HOME": str(tmp_path), "GIT_CONFIG_NOSYSTEM": "1"}
    environment = {**os.environ, **home, "PATH": f"{COMMAND.parent}{os.pathsep}{os.environ['PATH']}"}

    def run(*command: str | Path) -> subprocess.CompletedProcess[str]:
        return subprocess.run(command, cwd=shop, env=environment, capture_output=True, text=True, check=False)

    def commit(hook: str) -> subprocess.CompletedProcess[str]:
        run("git", "add", "--all")
        return run(sys.executable, "-m", "pre_commit", "run", hook)

    run("git", "init", "--quiet")
    run("git", "add", "--all")
    run("git", "-c", "user.name=a", "-c", "user.email=a@example.invalid", "commit", "--quiet", "--message=first")
    return commit


@pytest.mark.outside
def test_manifest() -> None:
    """Pre-commit's own reader takes the hooks as they are: one for files, one for the whole."""
    files, whole = load_manifest(str(MANIFEST))

    assert ("python", True, True) == (files["language"], files["pass_filenames"], files["require_serial"])
    assert ("python", False, True) == (whole["language"], whole["pass_filenames"], whole["always_run"])


@pytest.mark.outside
def test_changed_files(commit: Callable[..., subprocess.CompletedProcess[str]], tmp_path: Path) -> None:
    """The hook for files finds what is wrong in what a commit changes, and names no file of another kind."""
    (tmp_path / "kb" / "other.yml").write_text("a: [2\n")
    nothing = commit("benchleaf-files")
    change(tmp_path / "kb", "devices/knot.yml", "heat_limit: 60 °C", "heat_limit: 60")
    stopped = commit("benchleaf-files")

    assert "no files to check" in nothing.stdout
    assert (0, 1) == (nothing.returncode, stopped.returncode)
    assert 1 == stopped.stdout.count(" error bad-quantity: ")


@pytest.mark.outside
def test_whole(commit: Callable[..., subprocess.CompletedProcess[str]], tmp_path: Path) -> None:
    """The hook for the whole finds what a file that was taken out leaves behind in files that did not change."""
    sound = commit("benchleaf")
    (tmp_path / "kb" / "procedures" / "tools.yml").unlink()

    assert 0 == sound.returncode, sound.stdout
    assert 1 == commit("benchleaf").returncode
    assert "no files to check" in commit("benchleaf-files").stdout
