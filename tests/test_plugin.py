"""The plugin while it serves: what breaks, with its author or with us, is one line and the last pages stay."""

from __future__ import annotations

import logging
import shutil
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from mkdocs.config import load_config

from benchleaf import build
from benchleaf.checks.engine import RuleCrashed
from benchleaf.plugin import BenchleafPlugin

if TYPE_CHECKING:
    from mkdocs.config.defaults import MkDocsConfig

ROOT = Path(__file__).resolve().parent.parent


@pytest.fixture
def config(tmp_path: Path) -> MkDocsConfig:
    """Return the settings of a copy of the demonstration."""
    shutil.copytree(ROOT / "procedures", tmp_path / "procedures")
    shutil.copy(ROOT / "mkdocs.yml", tmp_path)
    return load_config(str(tmp_path / "mkdocs.yml"))


@pytest.fixture
def plugin(config: MkDocsConfig) -> BenchleafPlugin:
    """Return the plugin as it stands when a preview has begun to run."""
    plugin = fresh()
    plugin.on_pre_build(config=config)
    return plugin


def fresh() -> BenchleafPlugin:
    """Return the plugin as a preview begins."""
    plugin = BenchleafPlugin()
    plugin.load_config({})
    plugin.on_startup(command="serve", dirty=False)
    return plugin


def broken(*_: object) -> build.Checked:
    """Break as a rule of ours that breaks does."""
    raise RuleCrashed("The rule live-board broke on repairs/godwit/replace-battery.yml: KeyError('pack')")


def test_broken_rule_in_a_preview(
    config: MkDocsConfig, plugin: BenchleafPlugin, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    """A rule that breaks while one writes is said in one loud line, and the preview goes on."""
    monkeypatch.delenv("BENCHLEAF_DEBUG", raising=False)
    monkeypatch.setattr(build, "check", broken)

    with caplog.at_level(logging.INFO, "mkdocs"):
        plugin.on_pre_build(config=config)

    [said] = [record for record in caplog.records if record.levelno >= logging.ERROR]
    assert "a fault of ours" in said.getMessage()
    assert "live-board" in said.getMessage()
    assert said.getMessage().endswith("The last good pages are shown.")
    assert said.exc_info is None


def test_broken_rule_with_its_place(
    config: MkDocsConfig, plugin: BenchleafPlugin, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Who asks where it broke is told so, with BENCHLEAF_DEBUG."""
    monkeypatch.setenv("BENCHLEAF_DEBUG", "1")
    monkeypatch.setattr(build, "check", broken)

    with pytest.raises(RuleCrashed):
        plugin.on_pre_build(config=config)


def test_broken_rule_before_a_page_is_there(config: MkDocsConfig, monkeypatch: pytest.MonkeyPatch) -> None:
    """A preview does not begin on a rule that breaks: there are no pages that could stay."""
    monkeypatch.delenv("BENCHLEAF_DEBUG", raising=False)
    monkeypatch.setattr(build, "check", broken)

    with pytest.raises(RuleCrashed):
        fresh().on_pre_build(config=config)
