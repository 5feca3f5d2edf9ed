"""Every built page says what its browser may load and run, so that no text of an address or of data can
ever run as a script; and it is written without the blank lines and indents the theme's templates leave
behind, a third of a page.

The theme writes a few inline scripts; each is allowed by its own digest. Written into the page itself: a
plain web host needs no settings, and a copy on a disc is held to the same.
"""

from __future__ import annotations

import hashlib
import re
from base64 import b64encode

# scripts with a source or of another type need no digest
INLINE = re.compile(r"<script>(.*?)</script>", re.DOTALL)
KEPT = re.compile(r"(<(pre|textarea|script)\b.*?</\2>)", re.DOTALL)  # where a blank means something
INDENT = re.compile(r"\s*\n\s*")
FIRST = '<meta charset="utf-8">'
NAME = 'http-equiv="Content-Security-Policy"'


def policy(html: str) -> str:
    """The content security policy of a page."""
    digests = sorted(
        {
            f"'sha256-{b64encode(hashlib.sha256(script.encode()).digest()).decode()}'"
            for script in INLINE.findall(html)
        }
    )
    return "; ".join(
        (
            "default-src 'self'",
            " ".join(("script-src 'self'", *digests)),
            "img-src 'self' data:",  # the theme's style sheets carry their symbols in themselves
            "object-src 'none'",
            "base-uri 'none'",
            "form-action 'self'",
        )
    )


def tight(html: str) -> str:
    """The page with one line break where there were line breaks and blanks; nobody sees the difference."""
    parts = KEPT.split(html)  # outside, kept, its tag, outside, kept, ...
    return "".join(
        INDENT.sub("\n", part) if place % 3 == 0 else part
        for place, part in enumerate(parts)
        if place % 3 < 2
    )


def guarded(html: str) -> str:
    """The page with its policy, ahead of anything the policy is about."""
    if html.count(FIRST) != 1:
        raise ValueError(f"the page should have {FIRST} once, where its policy goes")
    return html.replace(FIRST, f'{FIRST}\n<meta {NAME} content="{policy(html)}">')
