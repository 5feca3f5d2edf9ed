"""The built site as one file to download: unpacked into a folder it works as it is, opened from
a disc, without a server.

A folder does not answer with its index.html, so links name it. Scripts do the same for the links they
make (page/from-file.js).
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fnmatch import fnmatch
from pathlib import Path
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

NAME = "ringfence"  # the folder inside
# of no use on a disc
LEFT_OUT = (
    "*.map",
    "*/lunr/*",
    "*.xml",
    "*.xml.gz",
    "sw.js",
    "offline*",
    "manifest.webmanifest",
    "search/*",
    "404.html",
    "embed/*",
)
FOLDER_LINK = re.compile(
    r'(<a\b[^>]*?\shref=")(?![a-z]+:|//|#)([^"#?]*/|\.{1,2}|(?:\.\./)*\.\.)([#?][^"]*)?(?=")'
)
DAY = (1980, 1, 1, 0, 0, 0)  # the same site gives the same bytes


def write(site: Path, out: Path) -> None:
    """Write a built site to a zip file. Raises FileNotFoundError where no site is built."""
    if not (site / "index.html").is_file():
        raise FileNotFoundError(f"no built site in {site}; run mkdocs build first")
    with ZipFile(out, "w", ZIP_DEFLATED, compresslevel=9) as archive:
        for path, content in _files(site):
            member = ZipInfo(f"{NAME}/{path}", DAY)
            member.compress_type, member.external_attr = ZIP_DEFLATED, 0o644 << 16
            archive.writestr(member, content)


def named(html: str) -> str:
    """The page with links to folders naming the file in them."""
    return FOLDER_LINK.sub(lambda link: f"{link[1]}{link[2].rstrip('/')}/index.html{link[3] or ''}", html)


def _files(site: Path) -> Iterator[tuple[str, bytes]]:
    for file in sorted(path for path in site.rglob("*") if path.is_file()):
        path = file.relative_to(site).as_posix()
        if any(fnmatch(path, pattern) for pattern in LEFT_OUT):
            continue
        yield (
            path,
            named(file.read_text(encoding="utf-8")).encode() if file.suffix == ".html" else file.read_bytes(),
        )
