"""A site of a few pages in two editions, A and B: real pages, scripts and data, small enough to be published,
broken and mended in every test."""

from __future__ import annotations

import logging
import os
from collections.abc import Sequence
from dataclasses import replace
from fnmatch import fnmatch
from pathlib import Path

from filelock import FileLock
from mkdocs.commands.build import build as mkdocs
from mkdocs.config import load_config

from generator.catalogue import Catalogue
from generator.engine.judge import judge
from generator.ledger.rows import row
from generator.site import tree
from generator.site.build import docs
from generator.site.finish import finish

ROOT = Path(__file__).parents[2]
FROM, THROUGH, INTO = "mic-dynamic-xlr", "xlr-f-to-xlr-m-3m", "mixer-mic-in-p48-xlr"
ASKED = ((FROM, (THROUGH,), INTO), (FROM, (), INTO), (FROM, ("xlr-f-to-xlr-m-crossed",), INTO))
PAGES = (
    "index.md",
    "check.md",
    "bench.md",
    "bag.md",
    "matrix.md",
    "methods.md",
    "leads/index.md",
    f"leads/{THROUGH}.md",
    f"ports/{FROM}.md",
)
KEPT = ("assets/*", "sw.js", "manifest.webmanifest", "withdrawn.json", f"draw/*{THROUGH}*", *PAGES)


def edition(catalogue: Catalogue, folder: Path, name: str, kept: Sequence[str] = KEPT) -> Path:
    """The built site of an edition: in B the microphone input has another name, so that its data differ."""
    port = catalogue.ports[INTO]
    ports = catalogue.ports | {INTO: replace(port, name=f"{port.name} ({name})")}
    catalogue = replace(catalogue, ports=ports)
    with FileLock(folder / f"small-{name}.lock"):
        built = folder / f"small-{name}"
        if not built.exists():
            rows = [row(judge(catalogue, *asked).as_data()) for asked in ASKED]
            files = {
                path: content
                for path, content in docs(catalogue, rows).items()
                if any(fnmatch(path, pattern) for pattern in kept)
            }
            files["assets/css/site.css"] += f"/* {name} */\n".encode()
            tree.write(files, folder / f"docs-{name}")
            logging.getLogger("mkdocs").setLevel(logging.ERROR)  # the menu names pages that are left out here
            mkdocs(
                load_config(
                    str(ROOT / "mkdocs.yml"),
                    docs_dir=str(folder / f"docs-{name}"),
                    site_dir=str(folder / f"site-{name}"),
                )
            )
            finish(folder / f"site-{name}")
            os.rename(folder / f"site-{name}", built)
    return built
