"""Questions as CSV: one row each, made for a spreadsheet. A cell never begins with a sign a
spreadsheet would calculate by."""

from __future__ import annotations

import csv
from collections.abc import Iterable
from io import StringIO

from generator.lessons.question import Question

HEAD = (
    "id",
    "kind",
    "level",
    "question",
    "given",
    "right",
    "wrong 1",
    "wrong 2",
    "wrong 3",
    "wrong 4",
    "wrong 5",
    "wrong 6",
    "wrong 7",
    "explanation",
    "number",
    "close enough",
    "working",
    "evidence",
    "note",
)
WRONG = sum(name.startswith("wrong") for name in HEAD)


def text(questions: Iterable[Question], site: str = "") -> str:
    """The whole file. `site` is where the site stands, to make links of the workings."""
    out = StringIO()
    written = csv.writer(out, lineterminator="\r\n")  # RFC 4180
    written.writerow(HEAD)
    for one in questions:
        wrong = [choice.text for choice in one.choices if choice.id not in one.answer][:WRONG]
        given = "; ".join(f"{name}: {value}" for name, value in one.given)
        near = f"{one.target.near:g} {one.target.unit}" if one.target else ""
        row = (
            one.id,
            one.kind,
            one.level,
            one.asks,
            given,
            one.right(),
            *wrong,
            *[""] * (WRONG - len(wrong)),
            one.because,
            one.number,
            near,
            f"{site}{one.works}",
            one.evidence,
            one.note,
        )
        written.writerow([_plain(cell) for cell in row])
    return out.getvalue()


def _plain(cell: str) -> str:
    return f"'{cell}" if cell[:1] in ("=", "+", "-", "@", "\t") else cell
