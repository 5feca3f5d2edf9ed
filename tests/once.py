"""What takes minutes is made by the first test process that asks for it; others wait for it
and take it as it is."""

from __future__ import annotations

import os
import pickle
from collections.abc import Callable, Mapping
from functools import wraps
from pathlib import Path

import drawn
from filelock import FileLock
from mkdocs.commands.build import build as mkdocs
from mkdocs.config import load_config

from generator import ledger
from generator.catalogue import Catalogue, default_directory
from generator.ledger.fingerprint import Fingerprints
from generator.site.build import build as docs
from generator.site.finish import finish

ROOT = Path(__file__).parents[1]
REMEMBERED = ROOT / "build/readings.sqlite"
DRAWN = 6  # of the rows that tell most one in so many is judged anew


def common(tmp_path_factory) -> Path:
    """A folder of this run that all its processes share."""
    own = tmp_path_factory.getbasetemp()
    return own.parent if "PYTEST_XDIST_WORKER" in os.environ else own


def _kept(made):
    """In this process each is made once; there is one catalogue."""
    found = {}

    @wraps(made)
    def asked(catalogue: Catalogue):
        if id(catalogue) not in found:
            found[id(catalogue)] = made(catalogue)
        return found[id(catalogue)]

    return asked


@_kept
def rows(catalogue: Catalogue) -> list[ledger.Row]:
    """Every pairing's row, from the committed ledger where it still holds; judged where
    not, which takes minutes."""
    REMEMBERED.parent.mkdir(exist_ok=True)
    with FileLock(REMEMBERED.with_suffix(".lock")):
        return ledger.rows(catalogue, default_directory() / "verdicts", REMEMBERED)


@_kept
def judged(catalogue: Catalogue) -> list:
    """The verdicts, in published form, of the pairings that are drawn of those that tell most; with
    RINGFENCE_WHOLE set, of all. Minutes."""
    wanted = list(map(pairing, _wanted(catalogue)))
    with FileLock(REMEMBERED.with_suffix(".lock")):
        return ledger.judged(catalogue, REMEMBERED, wanted)


def _wanted(catalogue: Catalogue) -> list[ledger.Row]:
    """A lot of the rows that tell most, and with it every port, lead, verdict and finding of the ledger."""
    known = rows(catalogue)
    if drawn.WHOLE:
        return known
    telling, prints = ledger.telling(known), Fingerprints(catalogue, words=False)
    by_lot = [one for one in telling if drawn.lot(prints.of(pairing(one)), pairing(one)) % DRAWN == 0]
    return drawn.complete(by_lot, telling, met)


def met(row: Mapping) -> list[tuple[str, str]]:
    """What a row of the ledger is an instance of."""
    return [
        ("outlet", row["from"]),
        *(("lead", name) for name in row["through"]),
        ("inlet", row["into"]),
        ("verdict", row["verdict"]),
        *(("finding", name) for name in (*row["findings"], *row["also"])),
    ]


def pairing(row: Mapping) -> tuple[str, tuple[str, ...], str]:
    return row["from"], tuple(row["through"]), row["into"]


def shared(folder: Path, name: str, made: Callable[[], dict[str, bytes]]) -> dict[str, bytes]:
    """The files of a docs tree, made by whichever process asks first."""
    with FileLock(folder / f"{name}.lock"):
        if not (folder / name).exists():
            (folder / f"{name}.part").write_bytes(pickle.dumps(made()))
            (folder / f"{name}.part").rename(folder / name)
    return pickle.loads((folder / name).read_bytes())


def site(catalogue: Catalogue, folder: Path) -> Path:
    """The folder of the whole site. Strict: a warning is a failure. RINGFENCE_SITE may name one that was
    built from this very checkout: continuous integration tests what it will publish."""
    if given := os.environ.get("RINGFENCE_SITE"):
        return Path(given).resolve()
    with FileLock(folder / "site.lock"):
        if not (folder / "built").exists():
            docs(catalogue, rows(catalogue), folder / "docs")
            mkdocs(
                load_config(
                    str(ROOT / "mkdocs.yml"),
                    docs_dir=str(folder / "docs"),
                    site_dir=str(folder / "site"),
                    strict=True,
                )
            )
            finish(folder / "site")
            (folder / "site").rename(folder / "built")  # whole, or not there
    return folder / "built"
