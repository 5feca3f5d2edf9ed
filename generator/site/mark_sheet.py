"""The verdict marks as one sheet of SVG symbols that a page can use as often as it likes."""

from __future__ import annotations

from xml.etree import ElementTree

from generator.drawing import marks
from generator.site.verdicts import ORDER, SLUGS


def mark_sheet() -> str:
    """A hidden element with one `<symbol id="mark-VERDICT">` for each verdict."""
    return f'<div class="rf-sheet" aria-hidden="true"><svg>{"".join(map(_symbol, ORDER))}</svg></div>'


def _symbol(verdict: str) -> str:
    picture = ElementTree.fromstring(marks.mark(verdict, prefix=SLUGS[verdict], word=False))
    symbol = ElementTree.Element(
        "symbol", {"id": f"mark-{SLUGS[verdict]}", "viewBox": picture.attrib["viewBox"]}
    )
    symbol.extend(child for child in picture if child.tag not in ("title", "desc"))
    for child in symbol.iter():
        for named in child.findall("title"):
            child.remove(named)
    return ElementTree.tostring(symbol, encoding="unicode")
