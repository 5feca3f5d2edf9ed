"""Pages made to stand in a frame on somebody else's page: the drawings of one record, one question, and
the answer of the check."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from xml.etree import ElementTree

from generator.catalogue.records import Catalogue
from generator.lessons import Question
from generator.site.bundles import scripts_of
from generator.site.drawings import Drawings
from generator.site.page import KINDS, Page
from generator.site.sized import sized
from generator.site.templates import Templates

SVG = "{http://www.w3.org/2000/svg}"


def files(
    catalogue: Catalogue, pictures: Drawings, drawn: Mapping[str, bytes], templates: Templates
) -> Iterator[tuple[str, bytes]]:
    """/embed/KIND/ID/ for every record, a retired id's one successor under the old name, and /embed/check/.
    `drawn` are the files below /draw/."""
    for kind in KINDS:
        records = getattr(catalogue, kind)
        for record in records.values():
            page = Page(f"embed/{kind}/{record.id}/", "embed", record.name, catalogue)
            views = [
                {"name": view.name, "caption": view.caption, "says": _says(drawn[f"draw/{view.name}.svg"])}
                for view in pictures.views(kind, record.id)
            ]
            html = sized(
                templates.bare("embed", page=page, kind=kind, record=record, views=views).decode(), drawn
            ).encode()
            yield f"{page.address}index.html", html
            for old, successors in catalogue.retired.items():
                if [new for new in successors if new in records] == [record.id]:
                    yield f"embed/{kind}/{old}/index.html", html
    check = Page("embed/check/", "embed-check", "Check a connection", catalogue)
    scripts = scripts_of("data", "circuits", "engine", "ui", "check", "ways", "embed")
    yield f"{check.address}index.html", templates.bare("embed-check", page=check, scripts=scripts)


def questions(
    catalogue: Catalogue, asked: Iterable[Question], drawn: Mapping[str, bytes], templates: Templates
) -> Iterator[tuple[str, bytes]]:
    """/embed/questions/KIND/SUBJECT/ for every question, a colon in its address being another folder."""
    for one in asked:
        page = Page(f"embed/questions/{one.address}/", "embed-question", one.asks, catalogue)
        yield (
            f"{page.address}index.html",
            sized(templates.bare("embed-question", page=page, one=one).decode(), drawn).encode(),
        )


def _says(svg: bytes) -> str:
    """What a drawing says of itself to those who do not see it."""
    return ElementTree.fromstring(svg).findtext(f"{SVG}desc", "")
