"""What a phone keeps to answer without a network: the service worker and the list it reads.

The list holds the check, the matrix, the indexes, the scripts and styles, and the drawings the check and the questions show; never more than a phone will
keep. Record pages are kept as they are visited. The version is a digest of everything listed, so any change makes a new one.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from pathlib import Path

from generator.site.guides import GUIDES
from generator.site.page import KINDS

PAGES = {"index.md": "", "check.md": "check/", "matrix.md": "matrix/", "bench.md": "bench/", "bag.md": "bag/",
         "recognise.md": "recognise/",
         "methods.md": "methods/", "changes.md": "changes/", "guides/index.md": "guides/",
         **{f"guides/{guide}.md": f"guides/{guide}/" for guide in GUIDES},
         **{f"{kind}/index.md": f"{kind}/" for kind in KINDS}}
SEARCH = "search/search_index.json"  # mkdocs writes it
DRAWN = ("draw/connector-", "draw/port-", "draw/lead-")
MANIFEST = {
    "name": "Ringfence", "short_name": "Ringfence", "start_url": "check/", "scope": "./", "display": "standalone",
    "background_color": "#f6f4ef", "theme_color": "#f6f4ef",
    "icons": [{"src": "assets/favicon.svg", "sizes": "any", "type": "image/svg+xml"}],
}


def files(tree: Mapping[str, bytes], source: Path, mains: set[str]) -> dict[str, bytes]:
    """sw.js, its list and the web manifest for a docs tree. `mains` are the paths of the first drawings, the ones these pages show."""
    listed = {path: PAGES.get(path, path) for path in sorted(tree)
              if path in PAGES or path.startswith("assets/") or (path.startswith(DRAWN) and path in mains)}
    digest = hashlib.sha256()
    for path in listed:
        digest.update(path.encode() + b"\0" + tree[path] + b"\0")
    for path in sorted((source / "theme").rglob("*.html")):
        digest.update(path.read_bytes())
    offline = {"version": digest.hexdigest()[:16], "files": [*listed.values(), SEARCH]}
    return {
        "sw.js": (source / "offline" / "sw.js").read_bytes(),
        "offline-list.js": f"self.OFFLINE = {json.dumps(offline, indent=0)};\n".encode(),
        "manifest.webmanifest": json.dumps(MANIFEST, indent=2).encode() + b"\n",
    }
