"""Questions as one page to print, A4, black on white: the sheet, then the answers on a page of their own."""

from __future__ import annotations

import re
from collections.abc import Sequence
from html import escape

from generator.catalogue.records import Catalogue
from generator.lessons.pictures import pictured
from generator.lessons.question import Question

STYLE = """body { font: 11pt/1.4 Helvetica, Arial, sans-serif; color: #000; background: #fff; margin: 0 auto; max-width: 180mm; padding: 5mm }
h1 { font-size: 18pt } h2 { font-size: 12pt; margin: 0 0 1mm } section { break-inside: avoid; margin: 0 0 7mm; overflow: hidden }
section svg { float: right; width: 48mm; height: auto; max-height: 60mm; margin-left: 4mm; color: #000 } dl { margin: 0; display: grid; grid-template-columns: max-content 1fr; gap: 0 3mm }
dt { color: #333 } dd { margin: 0 } ol.choices { list-style: none; padding: 0; margin: 2mm 0 0 } ol.choices li::before { content: "\\25a2  " }
.line { border-bottom: 1px solid #000; display: inline-block; width: 45mm } .answers { break-before: page } .answers li { margin-bottom: 2mm } small { color: #333 }
@page { size: A4; margin: 15mm }"""


def text(catalogue: Catalogue, questions: Sequence[Question], title: str, answers: bool = True) -> str:
    """The whole page; without answers where it goes to those who are asked."""
    asked = "\n".join(_asked(catalogue, number, one) for number, one in enumerate(questions, 1))
    told = "\n".join(f"<li>{_told(one)}</li>" for one in questions)
    after = (
        f'<section class="answers"><h1>{escape(title)}: answers</h1><ol>{told}</ol></section>'
        if answers
        else ""
    )
    return (
        "<!doctype html>\n"
        '<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width">'
        f"<title>{escape(title)}</title><style>{STYLE}</style></head><body>\n"
        f"<h1>{escape(title)}</h1>\n"
        '<p>Name <span class="line"></span> Date <span class="line"></span></p>\n'
        f"{asked}\n"
        f"{after}</body></html>\n"
    )


def _asked(catalogue: Catalogue, number: int, one: Question) -> str:
    drawn = pictured(catalogue, one)
    pictures = "".join(_own(drawn[name], number) for name in one.pictures[:1])
    given = "".join(f"<dt>{escape(name)}</dt><dd>{escape(value)}</dd>" for name, value in one.given)
    unit = one.target and f'<p><span class="line"></span> {escape(one.target.unit)}</p>'
    choices = (
        unit
        or f'<ol class="choices">{"".join(f"<li>{escape(choice.text)}</li>" for choice in one.choices)}</ol>'
    )
    hint = " <small>Number the steps.</small>" if one.form == "order" else ""
    return (
        f"<section>{pictures}<h2>{number}. {escape(one.asks)}{hint}</h2><dl>{given}</dl>{choices}</section>"
    )


def _own(svg: str, number: int) -> str:
    """A drawing whose ids are its own on a page that holds many: every id, and whatever refers to one."""
    ids = set(re.findall(r'\sid="([^"]+)"', svg))
    return (
        re.sub(
            r'(?<=["#\s])(' + "|".join(map(re.escape, sorted(ids, key=len, reverse=True))) + r')(?=["\s)])',
            rf"q{number}-\1",
            svg,
        )
        if ids
        else svg
    )


def _told(one: Question) -> str:
    near = f" (within {one.target.near:g} {escape(one.target.unit)})" if one.target else ""
    note = f" <small>{escape(one.note)}</small>" if one.note else ""
    return (
        f"<strong>{escape(one.right())}</strong>{near}. {escape(one.because)} <small>{escape(one.works)}, "
        f"{one.evidence}.</small>{note}"
    )
