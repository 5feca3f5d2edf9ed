"""Where the site stands: the lasting address of a page, and that address as a QR code.

The address is RINGFENCE_URL, which mkdocs.yml takes for its `site_url` too. A copy that was told none cannot know where it will
stand: its pages then show their path alone, and no code.
"""

from __future__ import annotations

from dataclasses import dataclass
from urllib.parse import urlsplit

import segno
from markupsafe import Markup

VARIABLE = "RINGFENCE_URL"


@dataclass(frozen=True)
class Site:
    """`url` is the address of the front page, with its last slash; empty if it is not known."""

    url: str = ""

    def at(self, address: str) -> str:
        """The lasting address of a page, or its path within the site."""
        return self.url + address

    def qr(self, address: str) -> Markup:
        """The lasting address as inline SVG, black on white with the quiet zone of ISO/IEC 18004; empty if the site's is not known."""
        if not self.url:
            return Markup("")
        code = segno.make_qr(self.at(address), error="m")
        return Markup(code.svg_inline(omitsize=True, dark="#000", light="#fff", svgclass="rf-qr", lineclass=None))


def site(url: str) -> Site:
    """The site at an address as a person writes it. Raises ValueError, in one sentence, for what no browser could open."""
    url = url.strip()
    if not url:
        return Site()
    parts = urlsplit(url)
    if parts.scheme not in ("http", "https") or not parts.netloc or parts.query or parts.fragment:
        raise ValueError(f"{VARIABLE} is {url!r}; it should be an address like https://example.org/ringfence/")
    return Site(url.rstrip("/") + "/")
