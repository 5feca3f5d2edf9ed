"""The drawings a question names, as SVG for a file of their own. Names are those of files under
/draw/ without the ending."""

from __future__ import annotations

from generator.catalogue.records import Catalogue
from generator.drawing import draw

from .question import Question

SIDE = "side-"


def pictured(catalogue: Catalogue, question: Question) -> dict[str, str]:
    """Every drawing of a question: name -> SVG."""
    own, svg = question.drawn
    names = dict.fromkeys((*question.pictures, *question.shown))
    return {name: svg if name == own else picture(catalogue, name) for name in names}


def picture(catalogue: Catalogue, name: str) -> str:
    """One drawing. ValueError for a name nothing is drawn by."""
    if name.startswith(SIDE):
        id, _, half = name.removeprefix(SIDE).rpartition("-")
        return draw(catalogue, id, view="side", half=half, prefix=f"draw-{name}")
    return draw(catalogue, name.partition("-")[2], prefix=f"draw-{name}")
