"""Pages to be framed by other sites, and printed as cards: a record's drawing and contacts, without the frame of the site.

They are whole HTML files, which mkdocs copies as they are; the policy it would write into them is written here.
"""

from __future__ import annotations

from collections.abc import Iterable

from generator.site.page import Page
from generator.site.policy import guarded
from generator.site.templates import Templates

KINDS = ("connectors", "assignments", "leads")


def files(pages: Iterable[Page], templates: Templates) -> dict[str, bytes]:
    """/embed/KIND/ID/index.html for the record pages that have one."""
    framed = [framed_page(page) for page in pages if page.kind in KINDS]
    return {f"{page.address}index.html": guarded(templates.render(page, "html")).encode() for page in framed}


def framed_page(page: Page) -> Page:
    """The framed page of a record's own page: one picture of each half, all contacts."""
    pictures = page.drawings if page.kind == "leads" else page.drawings[:len(page.halves)]
    return Page(f"embed/{page.address}", "embed", page.title, page.catalogue, {**page.show, "of": page, "drawings": pictures})
