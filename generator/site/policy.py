"""A mkdocs hook: every built page says what its browser may load and run, so that no text of an address or of data can ever run as a script.

The theme writes a few inline scripts; each is allowed by its own digest. Written into the page itself: a plain web host needs no settings, and a
copy on a disc is held to the same.
"""

from __future__ import annotations

import hashlib
import re
from base64 import b64encode

INLINE = re.compile(r"<script>(.*?)</script>", re.DOTALL)  # scripts with a source or of another type need no digest
FIRST = '<meta charset="utf-8">'


def policy(html: str) -> str:
    """The content security policy of a page."""
    digests = sorted({f"'sha256-{b64encode(hashlib.sha256(script.encode()).digest()).decode()}'" for script in INLINE.findall(html)})
    return "; ".join((
        "default-src 'self'",
        " ".join(("script-src 'self'", *digests)),
        "img-src 'self' data:",  # the theme's style sheets carry their symbols in themselves
        "object-src 'none'", "base-uri 'none'", "form-action 'self'",
    ))


def guarded(html: str) -> str:
    """The page with its policy, ahead of anything the policy is about."""
    if html.count(FIRST) != 1:
        raise ValueError(f"the page should have {FIRST} once, where its policy goes")
    return html.replace(FIRST, f'{FIRST}\n<meta http-equiv="Content-Security-Policy" content="{policy(html)}">')


def on_post_page(output: str, **_) -> str:
    """mkdocs: a page is ready."""
    return guarded(output)


def on_post_template(output_content: str, *, template_name: str, **_) -> str:
    """mkdocs: a page without Markdown, or a file of another kind, is ready."""
    return guarded(output_content) if template_name.endswith(".html") else output_content
