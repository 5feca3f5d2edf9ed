"""A built site put into the folder that a web host serves: whole, or not at all.

What pages and scripts are made of comes first, each file written beside its old self and renamed over it; the
pages next; the list that makes a phone fetch the new version comes last. Until then a phone keeps what it
has, for no digest of the old list fits; a run that was cut off is finished by the next. What the old version
alone had is removed at the very end, and only if an earlier run of this program put it there.
"""

from __future__ import annotations

import os
import shutil
from dataclasses import dataclass
from pathlib import Path

from generator.site import offline

WRITTEN = ".published"  # what earlier runs put there, one path a line
LAST = ("sw.js", offline.LIST)  # in this order: the list is the switch
PART = ".part-of-publishing"


class NotPublished(Exception):
    """Nothing, or not everything, was put there; the message says what is there now and what to do."""


@dataclass(frozen=True)
class Published:
    version: str
    written: int
    unchanged: int
    removed: int


def publish(site: Path, folder: Path) -> Published:
    """Put the built site into the folder. Raises NotPublished."""
    version = _whole(site)
    files = _files(site)
    if folder.resolve().is_relative_to(site.resolve()) or site.resolve().is_relative_to(folder.resolve()):
        raise NotPublished(
            f"{folder} and {site} lie in each other; name another folder. Nothing was changed."
        )
    try:
        folder.mkdir(parents=True, exist_ok=True)
        before = _earlier(folder)
        changed = [path for path in files if not _same(site / path, folder / path)]
        _room(site, folder, changed)
        _note(folder, before | set(files))
        for path in sorted(changed, key=_turn):
            _put(site / path, folder / path)
        removed = [path for path in sorted(before - set(files)) if _remove(folder, path)]
        _note(folder, set(files))
    except OSError as fault:
        raise NotPublished(
            f"{fault.filename or folder}: {fault.strerror}. The list was not switched or nothing was "
            "changed: phones keep what they have. Put that right and run this again."
        ) from None
    return Published(version, len(changed), len(files) - len(changed), len(removed))


def _whole(site: Path) -> str:
    """The version of a built site in which every listed file is what the list says."""
    try:
        listed = offline.read((site / offline.LIST).read_text(encoding="utf-8"))
    except (OSError, ValueError):
        raise NotPublished(
            f"no whole site in {site}; run mkdocs build and finish first. Nothing was changed."
        ) from None
    for path, digest in {**listed["files"], **listed["pack"]}.items():
        if not (site / path).is_file() or offline.digest((site / path).read_bytes()) != digest:
            raise NotPublished(
                f"{site / path} is not what the list of {listed['version']} says; run mkdocs build and "
                "finish again. Nothing was changed."
            )
    return listed["version"]


def _files(site: Path) -> list[str]:
    return sorted(path.relative_to(site).as_posix() for path in site.rglob("*") if path.is_file())


def _earlier(folder: Path) -> set[str]:
    written = folder / WRITTEN
    return set(filter(None, written.read_text(encoding="utf-8").splitlines())) if written.is_file() else set()


def _note(folder: Path, paths: set[str]) -> None:
    part = folder / f"{WRITTEN}{PART}"
    part.write_text("".join(f"{path}\n" for path in sorted(paths)), encoding="utf-8")
    part.replace(folder / WRITTEN)


def _same(new: Path, old: Path) -> bool:
    return old.is_file() and old.stat().st_size == new.stat().st_size and old.read_bytes() == new.read_bytes()


def _room(site: Path, folder: Path, changed: list[str]) -> None:
    """Told before anything is changed."""
    need, free = sum((site / path).stat().st_size for path in changed), shutil.disk_usage(folder).free
    if need > free:
        raise NotPublished(
            f"{folder} has room for {free / 1e6:.1f} MB, and {need / 1e6:.1f} MB have to go there. Nothing "
            "was changed."
        )


def _turn(path: str) -> tuple[int, str]:
    """Scripts, data and drawings; then pages; then the worker; the list last."""
    if path in LAST:
        return 2 + LAST.index(path), path
    return (1 if path.endswith(".html") else 0), path


def _put(new: Path, old: Path) -> None:
    old.parent.mkdir(parents=True, exist_ok=True)
    part = old.with_name(f"{old.name}{PART}")
    try:
        shutil.copyfile(new, part)
        os.replace(part, old)
    finally:
        part.unlink(missing_ok=True)


def _remove(folder: Path, path: str) -> bool:
    gone = folder / path
    if ".." in Path(path).parts or Path(path).is_absolute() or not gone.is_file():
        return False
    gone.unlink()
    for parent in gone.parents:
        if parent == folder or any(parent.iterdir()):
            break
        parent.rmdir()
    return True
