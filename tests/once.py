"""What takes minutes is made by the first test process that asks for it; others wait for it and take it as it is."""

from __future__ import annotations

import os
from pathlib import Path

from filelock import FileLock
from mkdocs.commands.build import build as mkdocs
from mkdocs.config import load_config

from generator import ledger
from generator.catalogue import Catalogue
from generator.site.build import build as docs

ROOT = Path(__file__).parents[1]
REMEMBERED = ROOT / "build/verdicts.jsonl"


def common(tmp_path_factory) -> Path:
    """A folder of this run that all its processes share."""
    own = tmp_path_factory.getbasetemp()
    return own.parent if "PYTEST_XDIST_WORKER" in os.environ else own


def judged(catalogue: Catalogue) -> list:
    """Every pairing's verdict in published form. Minutes when no verdict is remembered, seconds when all are."""
    REMEMBERED.parent.mkdir(exist_ok=True)
    with FileLock(REMEMBERED.with_suffix(".lock")):
        return ledger.judged(catalogue, REMEMBERED)


def site(catalogue: Catalogue, folder: Path) -> Path:
    """The folder of the whole site. Strict: a warning is a failure."""
    with FileLock(folder / "site.lock"):
        if not (folder / "built").exists():
            docs(catalogue, judged(catalogue), folder / "docs")
            mkdocs(load_config(str(ROOT / "mkdocs.yml"), docs_dir=str(folder / "docs"), site_dir=str(folder / "site"), strict=True))
            (folder / "site").rename(folder / "built")  # whole, or not there
    return folder / "built"
