"""QR codes of the record pages, for cards and for a phone held to a screen. There are none where the site's
address is not known: a code that leads nowhere is worse than no code."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from io import BytesIO

import segno

from generator.catalogue.records import Catalogue
from generator.site.address import Address
from generator.site.page import KINDS

QUIET = 4  # modules of white around the code, ISO/IEC 18004
LEVEL = "m"  # at least: 15 % of it may be unreadable; more where it costs no size


def files(catalogue: Catalogue, address: Address) -> Iterator[tuple[str, bytes]]:
    """/qr/KIND/ID.svg for every record: the page's absolute address."""
    if not address.site:
        return
    for kind in KINDS:
        for record in getattr(catalogue, kind):
            yield f"qr/{kind}/{record}.svg", svg(f"{address.site}{kind}/{record}/")


def others(codes: Mapping[str, str], address: Address) -> Iterator[tuple[str, bytes]]:
    """Codes of other pages: file -> what it leads to, from the site's root."""
    if address.site:
        yield from ((file, svg(f"{address.site}{page}")) for file, page in codes.items())


def svg(text: str) -> bytes:
    """A code as SVG: black on white whatever stands around it, without inline style, which the
    pages' policy forbids."""
    out = BytesIO()
    segno.make(text, error=LEVEL, micro=False).save(
        out,
        kind="svg",
        xmldecl=False,
        border=QUIET,
        dark="#000",
        light="#fff",
        svgclass=None,
        lineclass=None,
        omitsize=True,
        nl=False,
    )
    return out.getvalue()
