"""The ledger as it stood at a git revision."""

from __future__ import annotations

import subprocess
from pathlib import Path


class NoRevision(Exception):
    """What git says when there is no such revision."""


def at_revision(directory: Path, revision: str) -> dict[str, str]:
    """The files of the ledger in `directory` at a revision: name -> content. Raises NoRevision."""
    def git(*words: str) -> str:
        found = subprocess.run(["git", "-C", str(directory), *words], capture_output=True, text=True, encoding="utf-8")
        if found.returncode:
            raise NoRevision(found.stderr.strip())
        return found.stdout

    names = git("ls-tree", "--name-only", revision, "./").splitlines()
    return {name: git("show", f"{revision}:./{name}") for name in names if name.endswith(".txt")}
