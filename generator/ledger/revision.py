"""The ledger as it stood at a git revision."""

from __future__ import annotations

import subprocess
from pathlib import Path


class NoRevision(Exception):
    """What git says when there is no such revision."""


def at_revision(directory: Path, revision: str) -> dict[str, str]:
    """The files of the ledger in `directory` at a revision: name -> content. Raises NoRevision."""
    names = _git(directory, "ls-tree", "--name-only", revision, "./").splitlines()
    return {name: file_at_revision(directory, revision, name) for name in names if name.endswith(".txt")}


def file_at_revision(directory: Path, revision: str, name: str) -> str:
    """One of them. Raises NoRevision."""
    return _git(directory, "show", f"{revision}:./{name}")


def _git(directory: Path, *words: str) -> str:
    try:
        found = subprocess.run(
            ["git", "-C", str(directory), *words],
            capture_output=True,
            text=True,
            encoding="utf-8",
            errors="replace",
        )
    except FileNotFoundError:
        raise NoRevision("git is not on this machine.") from None
    if found.returncode:
        raise NoRevision(found.stderr.strip())
    return found.stdout
