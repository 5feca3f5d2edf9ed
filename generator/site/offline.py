"""What a phone keeps to answer without a network: the whole site, written down when mkdocs has built it.

Scripts, styles and the search index are kept as they are. Every page and every drawing goes into one file, each compressed by itself, with an
index of where it begins: a phone makes a handful of requests in place of two thousand, and keeps a seventh of the bytes. sw.js reads it.
The version is a digest of everything kept, so any change of what is published makes a new one.
"""

from __future__ import annotations

import gzip
import hashlib
import json
from collections.abc import Iterable, Mapping
from fnmatch import fnmatch
from pathlib import Path

PACK, PLACES = "offline/site.pack", "offline/site.json"
LOOSE = ("assets/*", "search/search_index.json", "manifest.webmanifest")
LEFT_OUT = ("*.map", "*/lunr/*", "assets/css/embed*.css")  # for who works on the theme, for other languages, for frames
PACKED = ("*index.html", "draw/*.svg", "qr/*.svg")
FRAMES = "embed/*"  # shown on other people's pages, where there is a network
MANIFEST = {
    "name": "Ringfence", "short_name": "Ringfence", "start_url": "check/", "scope": "./", "display": "standalone",
    "background_color": "#f6f4ef", "theme_color": "#f6f4ef",
    "icons": [{"src": "assets/favicon.svg", "sizes": "any", "type": "image/svg+xml"}],
}


def files(source: Path) -> dict[str, bytes]:
    """The service worker and the web manifest, for the docs tree."""
    return {"sw.js": (source / "offline" / "sw.js").read_bytes(), "manifest.webmanifest": json.dumps(MANIFEST, indent=2).encode() + b"\n"}


def kept(site: Path) -> tuple[list[str], list[str]]:
    """The paths in a built site that are kept as they are, and those that are packed, each in order."""
    paths = sorted(path.relative_to(site).as_posix() for path in site.rglob("*") if path.is_file())
    def like(path: str, patterns: Iterable[str]) -> bool:
        return any(fnmatch(path, pattern) for pattern in patterns)

    return ([path for path in paths if like(path, LOOSE) and not like(path, LEFT_OUT)],
            [path for path in paths if like(path, PACKED) and not fnmatch(path, FRAMES)])


def packed(contents: Mapping[str, bytes]) -> dict[str, bytes]:
    """The pack of some files (path -> content), and its index: address -> [where its gzip member begins, its length]."""
    pack, places = bytearray(), {}
    for path, content in contents.items():
        member = gzip.compress(content, 9, mtime=0)
        places[path.removesuffix("index.html")] = [len(pack), len(member)]
        pack += member
    return {PACK: bytes(pack), PLACES: json.dumps(places, separators=(",", ":")).encode()}


def write(site: Path) -> None:
    """Write the pack, its index and the list the service worker goes by into a built site."""
    loose, inside = kept(site)
    digest = hashlib.sha256()
    for path in (*loose, *inside):
        digest.update(path.encode() + b"\0" + (site / path).read_bytes() + b"\0")
    listed = {"version": digest.hexdigest()[:16], "files": [*loose, PACK, PLACES]}
    written = packed({path: (site / path).read_bytes() for path in inside})
    written["offline-list.js"] = f"self.OFFLINE = {json.dumps(listed, indent=0)};\n".encode()
    for path, content in written.items():
        (site / path).parent.mkdir(exist_ok=True)
        (site / path).write_bytes(content)


def on_post_build(config, **_) -> None:
    """mkdocs: the site is built."""
    write(Path(config["site_dir"]))
