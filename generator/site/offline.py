"""What a phone keeps to answer without a network: the whole site, written down when it is built.

Scripts and styles are kept as they are, but for those with much data. These, every page and every drawing go
into one file with an index: a phone makes a handful of requests in place of three thousand, and keeps a tenth
of the bytes. It is compressed in members of some files each, for pages of a kind are alike; one is small
enough to be unpacked between two frames. Lines that many pages have in common (the head, the menu, the foot)
stand in it once. sw.js reads it.
Each file stands in the list with its digest, so that nothing of another version is ever kept under this one's
name. The version is a digest of everything kept, so any change of what is published makes a new one.
"""

from __future__ import annotations

import gzip
import hashlib
import json
from base64 import b64encode
from collections import Counter
from collections.abc import Iterable, Mapping
from fnmatch import fnmatch
from pathlib import Path

LIST, PACK, PLACES = "offline-list.js", "offline/site.pack", "offline/site.json"
LOOSE = ("assets/*", "manifest.webmanifest")
# for who works on the theme, the theme's own search, for frames
LEFT_OUT = ("*.map", "assets/javascripts/*", "assets/css/embed*.css")
LATE = tuple(
    f"assets/js/{name}.js"
    for name in (
        *("asks", "called", "circuits", "plugs", "printed", "questions", "runs", "seek", "table"),  # data
        *("bag", "bench", "cards", "class", "interference", "upkeep"),  # tools on pages of their own
    )
)
PACKED = ("*index.html", "draw/*.svg", "qr/*.svg", *LATE)
# in so many files a line stands once for all; what stands for it begins with the mark
COMMON, MARK = 5, b"\x01"
MEMBER = 200_000  # bytes that files of a member come to, unless one alone has more
FRAMES = "embed/*"  # shown on other people's pages, where there is a network
MANIFEST = {
    "name": "Ringfence",
    "short_name": "Ringfence",
    "start_url": "check/",
    "scope": "./",
    "display": "standalone",
    "background_color": "#f6f4ef",
    "theme_color": "#f6f4ef",
    "icons": [
        {"src": "assets/favicon.svg", "sizes": "any", "type": "image/svg+xml"},
        *(
            {
                "src": f"assets/icons/{name}-{size}.png",
                "sizes": f"{size}x{size}",
                "type": "image/png",
                "purpose": purpose,
            }
            # drawn by .ci/icons
            for name, purpose in (("icon", "any"), ("maskable", "maskable"))
            for size in (192, 512)
        ),
    ],
}


def files(source: Path) -> dict[str, bytes]:
    """The service worker and the web manifest, for the docs tree."""
    return {
        "sw.js": (source / "offline" / "sw.js").read_bytes(),
        "manifest.webmanifest": json.dumps(MANIFEST, indent=2).encode() + b"\n",
    }


def kept(site: Path) -> tuple[list[str], list[str]]:
    """The paths in a built site that are kept as they are, and those that are packed, each in order."""
    paths = sorted(path.relative_to(site).as_posix() for path in site.rglob("*") if path.is_file())

    def like(path: str, patterns: Iterable[str]) -> bool:
        return any(fnmatch(path, pattern) for pattern in patterns)

    return (
        [path for path in paths if like(path, LOOSE) and not like(path, (*LEFT_OUT, *LATE))],
        [path for path in paths if like(path, PACKED) and not fnmatch(path, FRAMES)],
    )


def packed(contents: Mapping[str, bytes]) -> dict[str, bytes]:
    """The pack of some files (path -> content), and its index: under `members` [where a gzip member begins,
    its length, the addresses of the files in it], under `lines` the place of the lines that stand for many.
    In a member a line of the mark alone parts two files, one of the mark and a number n is line n of those.
    ValueError for a file that has the mark in it."""
    marked = [path for path, content in contents.items() if MARK in content]
    if marked:
        raise ValueError(f"{marked[0]} has a control character in it.")
    met = Counter(line for content in contents.values() for line in set(content.split(b"\n")))
    common = {
        line: number
        for number, line in enumerate(
            line for line, times in met.items() if times >= COMMON and len(line) > len(MARK) + 4
        )
    }
    pack = bytearray()

    def put(content: bytes) -> list[int]:
        member = gzip.compress(content, 9, mtime=0)
        pack.extend(member)
        return [len(pack) - len(member), len(member)]

    short = {
        path: b"\n".join(
            MARK + b"%d" % common[line] if line in common else line for line in content.split(b"\n")
        )
        for path, content in contents.items()
    }
    members = [
        [
            *put((b"\n%b\n" % MARK).join(short[path] for path in paths)),
            [path.removesuffix("index.html") for path in paths],
        ]
        for paths in _together(short)
    ]
    index = {"lines": put(b"\n".join(common)), "members": members}
    return {PACK: bytes(pack), PLACES: json.dumps(index, separators=(",", ":")).encode()}


def _together(contents: Mapping[str, bytes]) -> list[list[str]]:
    """The paths in their order, member by member."""
    members, room = [], 0
    for path, content in contents.items():
        if not members or len(content) > room:
            members.append([])
            room = MEMBER
        members[-1].append(path)
        room -= len(content)
    return members


def listed(contents: Mapping[str, bytes], loose: Iterable[str], inside: Iterable[str]) -> dict:
    """The list the service worker goes by: the version, and the digest of every file.

    `files` are kept as they are, `pack` holds the rest; `pages` are kept in place of the pack
    where a browser cannot unpack it: the tools and the lists, which stand at the top of the site,
    and the scripts of the pack.
    """
    version = hashlib.sha256()
    for path in (*loose, *inside):
        version.update(path.encode() + b"\0" + contents[path] + b"\0")
    pages = [
        path for path in inside if path in LATE or (path.endswith("index.html") and path.count("/") <= 1)
    ]
    return {
        "version": version.hexdigest()[:16],
        "files": {path: digest(contents[path]) for path in loose},
        "pack": {path: digest(contents[path]) for path in (PACK, PLACES)},
        "pages": {path.removesuffix("index.html"): digest(contents[path]) for path in pages},
    }


def digest(content: bytes) -> str:
    return b64encode(hashlib.sha256(content).digest()).decode()


def read(text: str) -> dict:
    """The list out of the script that carries it. Raises ValueError where it is none."""
    start, stop = "self.OFFLINE = ", ";\n"
    if not (text.startswith(start) and text.endswith(stop)):
        raise ValueError(f"{LIST} is not whole.")
    return json.loads(text.removeprefix(start).removesuffix(stop))


def write(site: Path) -> None:
    """Write the pack, its index and the list the service worker goes by into a built site."""
    loose, inside = kept(site)
    contents = {path: (site / path).read_bytes() for path in (*loose, *inside)}
    written = packed({path: contents[path] for path in inside})
    written[LIST] = (
        f"self.OFFLINE = {json.dumps(listed(contents | written, loose, inside), indent=0)};\n".encode()
    )
    for path, content in written.items():
        (site / path).parent.mkdir(exist_ok=True)
        (site / path).write_bytes(content)
