"""An earlier state of a knowledge base, read out of git into memory; nothing in the work tree is touched."""

from __future__ import annotations

import os
import posixpath
import subprocess
from pathlib import Path

from benchleaf.findings import Refused
from benchleaf.source.folder import SETTINGS, YAML, File, Folder, docs_written, identify

_LINK = "120000"
_LINKS = 8  # A link that leads to a link, and so on: more than this is a circle.


def earlier(root: Path, revision: str) -> Folder:
    """Return the knowledge base whose settings lie in *root*, as it was at *revision*; refuses where it was not."""
    top = Path(os.fsdecode(_git(root, "rev-parse", "--show-toplevel").rstrip(b"\n")))
    tree = _tree(root, _commit(root, revision))
    inside = root.resolve().relative_to(top.resolve()).as_posix()
    below = "" if inside == "." else inside
    settings = tree.get(posixpath.join(below, SETTINGS))
    if settings is None:
        raise Refused(f"There is no {posixpath.join(below, SETTINGS)} in {revision}: the knowledge base was not here")
    docs = docs_written(_contents(root, [settings[1]])[0])
    start = posixpath.normpath(posixpath.join(below, docs)) + "/"
    names = {path.removeprefix(start): path for path in tree if path.startswith(start)}
    shown = {name: path for name, path in names.items() if not any(part.startswith(".") for part in name.split("/"))}
    yaml = sorted(name for name in shown if Path(name).suffix.lower() in YAML)
    if not yaml:
        # Else everything would be new, and a comparison of nothing would find nothing loosened.
        raise Refused(f"There was no YAML file in {docs} at {revision}: there is nothing to compare with")
    texts = _texts(root, tree, [shown[name] for name in yaml])
    files = tuple(
        File(posixpath.join(docs, name), *identify(name), text) for name, text in zip(yaml, texts, strict=True)
    )
    return Folder(root, docs, files, frozenset(shown.keys() - set(yaml)))


def _commit(root: Path, revision: str) -> str:
    try:
        return (
            _git(root, "rev-parse", "--verify", "--quiet", "--end-of-options", f"{revision}^{{commit}}")
            .decode()
            .strip()
        )
    except Refused:
        if _git(root, "rev-parse", "--is-shallow-repository").strip() == b"true":
            raise Refused(f"There is no {revision} in this clone, which is a shallow one: `git fetch --unshallow` "
                          "fetches the rest") from None  # fmt: skip
        raise Refused(f"git knows no {revision} here: name a commit, a branch or a tag") from None


def _tree(root: Path, commit: str) -> dict[str, tuple[str, str]]:
    """Return mode and object of each file of *commit*, by its path from the top."""
    listed = _git(root, "ls-tree", "-r", "-z", "--full-tree", commit)
    found = {}
    for line in listed.split(b"\0")[:-1]:
        about, _, path = line.partition(b"\t")
        mode, kind, name = about.decode().split(" ")
        if kind == "blob":
            found[os.fsdecode(path)] = (mode, name)
    return found


def _texts(root: Path, tree: dict[str, tuple[str, str]], paths: list[str]) -> list[bytes]:
    """Return the bytes of each of *paths*; of a link, those of what it leads to inside the repository."""
    wanted = list(paths)
    for _ in range(_LINKS):
        links = [spot for spot, path in enumerate(wanted) if tree[path][0] == _LINK]
        if not links:
            break
        leads = _contents(root, [tree[wanted[spot]][1] for spot in links])
        for spot, lead in zip(links, leads, strict=True):
            there = posixpath.normpath(posixpath.join(posixpath.dirname(wanted[spot]), os.fsdecode(lead)))
            if there not in tree:
                raise Refused(f"{paths[spot]} was a link that led out of the repository: its text is not in git")
            wanted[spot] = there
    return _contents(root, [tree[path][1] for path in wanted])


def _contents(root: Path, objects: list[str]) -> list[bytes]:
    """Return the bytes of *objects*, all read by one process."""
    answer = _git(root, "cat-file", "--batch", said="".join(f"{name}\n" for name in objects).encode())
    found, at = [], 0
    for name in objects:
        end = answer.index(b"\n", at)
        head = answer[at:end].split(b" ")
        if len(head) != 3:
            raise Refused(f"git does not hold {name}: this clone is not whole, `git fetch` fetches the rest")
        at = end + 1 + int(head[2])
        found.append(answer[end + 1 : at])
        at += 1
    return found


def _git(root: Path, *arguments: str, said: bytes | None = None) -> bytes:
    """Return what git answers; refuses with its first line where it will not."""
    # Only what reads: git must not even refresh its index, which is part of the work tree's state.
    environment = {**os.environ, "GIT_OPTIONAL_LOCKS": "0", "LC_ALL": "C"}
    try:
        done = subprocess.run(  # noqa: S603  (a fixed program; what a person gave stands behind --end-of-options)
            ["git", "-C", str(root), *arguments],  # noqa: S607  (git is where the author has it)
            input=said or b"",
            capture_output=True,
            check=False,
            env=environment,
        )
    except FileNotFoundError:
        raise Refused("git is not installed, and the earlier state is in it") from None
    if done.returncode:
        lines = done.stderr.decode(errors="replace").strip().splitlines()
        why = lines[0].removeprefix("fatal: ") if lines else f"`git {arguments[0]}` failed"
        if "not a git repository" in why:
            why = f"{root} is not in a git repository: there is no earlier state to compare with"
        raise Refused(why)
    return done.stdout
