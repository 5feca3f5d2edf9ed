"""A site of a few pages in two editions, A and B: real pages, scripts and data, small enough to be published,
broken and mended in every test."""

from __future__ import annotations

import logging
import os
import re
from collections.abc import Mapping, Sequence
from fnmatch import fnmatch
from hashlib import sha256
from pathlib import Path

import trees
from filelock import FileLock
from mkdocs.commands.build import build as mkdocs
from mkdocs.config import load_config

from generator.catalogue import Catalogue
from generator.site import tree
from generator.site.finish import finish

ROOT = Path(__file__).parents[2]
FROM, THROUGH, INTO = "mic-dynamic-xlr", "xlr-f-to-xlr-m-3m", "mixer-mic-in-p48-xlr"
assert (FROM, (THROUGH,), INTO) in trees.ASKED
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
    """The built site of an edition: in B the microphone input has another name, and its data and with them
    the names of data and edition differ."""
    with FileLock(folder / f"small-{name}.lock"):
        built = folder / f"small-{name}"
        if not built.exists():
            files = {
                path: content
                for path, content in trees.plain(catalogue, folder).items()
                if any(fnmatch(path, pattern) for pattern in kept)
            }
            if name != "A":
                files = renamed(files, catalogue.ports[INTO].name, name)
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


def renamed(files: Mapping[str, bytes], port: str, name: str) -> dict[str, bytes]:
    """The files of another edition, in which a port has another name."""
    page = files["check.md"].decode()
    own, data = re.search(r'^edition: "?(\w+)', page, re.M)[1], re.search(r"Data of \S+ \((\w+)\)", page)[1]
    new = {old: sha256(f"{old} {name}".encode()).hexdigest()[: len(old)] for old in (own, data)}
    new[port] = f"{port} ({name})"

    def other(content: bytes) -> bytes:
        for old, now in new.items():
            content = content.replace(old.encode(), now.encode())
        return content

    files = {path: other(content) for path, content in files.items()}
    files["assets/css/site.css"] += f"/* {name} */\n".encode()
    return files
