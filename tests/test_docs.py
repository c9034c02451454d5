"""What the README and the guide say is what there is."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import click
import pytest

from benchleaf import build, cli
from benchleaf.checks.rules import RULES
from benchleaf.report import FORMATS
from benchleaf.source.folder import scan

ROOT = Path(__file__).resolve().parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
GUIDE = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
MAKEFILE = (ROOT / "Makefile").read_text(encoding="utf-8")


def _copy(tmp_path: Path) -> Path:
    shutil.copytree(ROOT / "procedures", tmp_path / "procedures")
    shutil.copy(ROOT / "mkdocs.yml", tmp_path)
    return tmp_path


def test_procedure_in_readme(tmp_path: Path) -> None:
    """The procedure that the README shows goes into the demonstration as it stands, and nothing more is found."""
    [text] = re.findall(r"```yaml\n# (procedures/\S+)\n(.*?)```", README, re.DOTALL)
    root = _copy(tmp_path)
    (root / text[0]).write_text(text[1], encoding="utf-8")

    checked = build.check(scan(root, "procedures"))

    assert build.check(scan(ROOT, "procedures")).findings == checked.findings
    assert ("godwit", "check-display-plug") in checked.base.procedures


def test_finding_in_readme(tmp_path: Path) -> None:
    """The finding that the README shows is what the check prints for that fault."""
    root = _copy(tmp_path)
    device = root / "procedures" / "devices" / "godwit.yml"
    text = device.read_text(encoding="utf-8")
    device.write_text(text.replace("heat_limit: 60 °C", "heat_limit: 60", 1), encoding="utf-8")

    shown = FORMATS["text"](build.check(scan(root, "procedures")).report())

    assert shown in README.replace("\n    ", "\n").replace("    procedures/", "procedures/")


def test_commands_in_readme() -> None:
    """Every command that there is stands in the README, and the README names no other."""
    named = set(re.findall(r"\| `benchleaf ([a-z]+)", README))

    assert set(cli.commands.commands) == named


@pytest.mark.parametrize("name", sorted(cli.commands.commands))
def test_help(name: str) -> None:
    """Every command and every option says what it is for."""
    command = cli.commands.commands[name]

    assert command.help
    assert [] == [option.name for option in command.params if isinstance(option, click.Option) and not option.help]


@pytest.mark.parametrize("target", sorted(set(re.findall(r"(?:`|^    )make ([a-z]+)", README + GUIDE, re.MULTILINE))))
def test_make_targets(target: str) -> None:
    """Every `make` command that the documents name is there."""
    assert re.search(rf"^{target}:", MAKEFILE, re.MULTILINE)


def test_stages_in_guide() -> None:
    """Every folder and file of the package has its line in the guide's map."""
    package = ROOT / "generator" / "benchleaf"
    there = {f"{path.name}/" if path.is_dir() else path.name for path in package.iterdir() if path.name[0] not in "_."}
    mapped = set(re.findall(r"`([a-z]+(?:/|\.py))`", GUIDE))

    assert set() == there - mapped


def test_rules_have_a_page() -> None:
    """Every rule explains itself: a README with its name as heading."""
    rooms = ROOT / "generator" / "benchleaf" / "checks" / "rules"
    headings = {
        name: (rooms / name.replace("-", "_") / "README.md").read_text(encoding="utf-8").split("\n")[0]
        for name in RULES
    }

    assert {name: f"# {name}" for name in RULES} == headings
