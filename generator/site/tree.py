"""Writing the docs tree: only what changed, and nothing left over from the last run.

Only files named in our own list of an earlier run are ever removed, so a wrong `--out`
cannot cost anyone their work.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path, PurePosixPath

WRITTEN = ".written"  # mkdocs leaves dot files out of the site


@dataclass(frozen=True)
class Changes:
    """How many files a run wrote, left as they were, and removed."""

    written: int
    unchanged: int
    removed: int


def write(files: Mapping[str, bytes], out: Path) -> Changes:
    """Make `out` hold exactly `files` (relative posix path -> content) among the files this program
    has ever written there."""
    for path in files:
        _inside(path)
    before = _earlier(out)
    written = 0
    for path, content in sorted(files.items()):
        target = out / path
        if target.is_file() and target.read_bytes() == content:
            continue
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(content)
        written += 1
    removed = 0
    for path in sorted(before - set(files)):
        removed += _remove(out, path)
    listing = "".join(f"{path}\n" for path in sorted(files)).encode()
    if not (out / WRITTEN).is_file() or (out / WRITTEN).read_bytes() != listing:
        (out / WRITTEN).write_bytes(listing)
    return Changes(written, len(files) - written, removed)


def _earlier(out: Path) -> set[str]:
    listing = out / WRITTEN
    if not listing.is_file():
        return set()
    return {line for line in listing.read_text(encoding="utf-8").splitlines() if line}


def _inside(path: str) -> None:
    parts = PurePosixPath(path).parts
    if not parts or path.startswith("/") or ".." in parts:
        raise ValueError(f"{path!r} does not stay inside the docs tree")


def _remove(out: Path, path: str) -> int:
    _inside(path)
    target = out / path
    if not target.is_file():
        return 0
    target.unlink()
    for folder in target.parents:
        if folder == out or any(folder.iterdir()):
            break
        folder.rmdir()
    return 1
