"""`benchleaf new`: the draft of a procedure, a device or a diagnosis."""

from __future__ import annotations

import os
import re
from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING

import click

from benchleaf import build
from benchleaf.begin import device, diagnosis, procedure
from benchleaf.begin.words import to_fill_in
from benchleaf.checks.names import FEW, listed, nearest
from benchleaf.cli.asked import knowledge_base
from benchleaf.cli.editors import tell_editors
from benchleaf.cli.terminal import CLEAN, say, tell
from benchleaf.findings import Refused
from benchleaf.model.procedure import ANY_DEVICE
from benchleaf.source.folder import Folder, identify

if TYPE_CHECKING:
    from collections.abc import Mapping

    from benchleaf.model.knowledge import KnowledgeBase

KINDS = ("procedure", "device", "diagnosis")
_FOLDERS = {"procedure": "repairs", "device": "devices", "diagnosis": "diagnosis"}
_SHAPES = {"procedure": "repairs/DEVICE/PROCEDURE.yml", "device": "devices/DEVICE.yml",
           "diagnosis": "diagnosis/DEVICE/SYMPTOM.yml"}  # fmt: skip
_ID = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")


@click.command("new")
@click.argument("kind", type=click.Choice(KINDS))
@click.argument("path", metavar="PATH")
def command(kind: str, path: str) -> int:
    """
    Write a draft that passes the check, with what the device has offered in it.

    PATH is where the file is to lie, or in short DEVICE/PROCEDURE, DEVICE, or DEVICE/SYMPTOM.
    """
    folder = knowledge_base(Path.cwd())
    place, owner, name = _place(folder, kind, path)
    file = folder.root / folder.docs_path(place)
    if os.path.lexists(file):
        raise Refused(f"{os.path.relpath(file)} is there already and is left as it is: name another")
    base = build.read_base(folder)
    _must_fit(base, kind, owner, name)
    make = {"procedure": procedure.drafts, "diagnosis": diagnosis.drafts}
    drafts = make[kind](base, owner, name) if kind in make else device.drafts(base, name)
    text, findings = build.passing(folder, folder.docs_path(place), drafts)
    file.parent.mkdir(parents=True, exist_ok=True)
    with file.open("x", encoding="utf-8") as out:
        out.write(text)
    shown = os.path.relpath(file)
    say("".join(f"{shown}:{line}: {what}\n" for line, what in to_fill_in(text)))
    tell(f"{shown} is a draft. Fill in the lines above, then `benchleaf check`; `benchleaf serve` shows it meanwhile.")
    if kind != "procedure":
        tell(f"A {kind} has no status: it is on the site as soon as that is built.")
    for finding in findings:
        tell(f"What the check says of it already: {finding.message}")
    for line in tell_editors(folder.root, folder.docs):
        tell(line)
    return CLEAN


def _place(folder: Folder, kind: str, path: str) -> tuple[str, str, str]:
    """Return the path below the docs folder, the device and the name that *path* means."""
    below = _below(folder, path) if path.endswith((".yml", ".yaml")) else f"{_FOLDERS[kind]}/{path.strip('/')}.yml"
    found, owner, name = identify(below)
    if found != kind:
        raise Refused(f"{below} is no place for a {kind}: write {_SHAPES[kind]}, or in short "
                      f"{_SHAPES[kind].split('/', 1)[1].removesuffix('.yml')}")  # fmt: skip
    for word in (owner, name):
        if not _ID.fullmatch(word):
            raise Refused(f"{word} is no name: write small letters and digits, words joined by hyphens")
    return below, owner, name


def _below(folder: Folder, path: str) -> str:
    """Return *path*, given from here or from below the docs folder, as it is named below the docs folder."""
    top = folder.root / folder.docs
    whole = Path(os.path.abspath(path))  # noqa: PTH100  (it is not there yet, and links stay as they are)
    for start in (top.resolve(), top):
        if whole.is_relative_to(start):
            return whole.relative_to(start).as_posix()
    return PurePosixPath(path).as_posix()


def _must_fit(base: KnowledgeBase, kind: str, owner: str, name: str) -> None:
    """Refuse a draft that names what is not there: no check could find it sound."""
    if kind == "device":
        return
    if owner not in base.devices and not (kind == "procedure" and owner == ANY_DEVICE):
        unread = base.is_broken("device", owner, owner)
        why = "cannot be read: `benchleaf check` says why" if unread else _there_is(owner, base.devices)
        raise Refused(f"The device {owner} {why}")
    if kind == "diagnosis" and name not in base.symptoms:
        raise Refused(f"The symptom {name} {_there_is(name, base.symptoms)} Otherwise write it into symptoms.yml first")


def _there_is(name: str, known: Mapping[str, object]) -> str:
    if close := nearest(name, known):
        return f"is not there; did you mean {close}?"
    names = list(known)
    return f"is not there; there are {listed(names[:FEW])}." if names else "is not there, and no other is."
