"""The published data: JSON under /data/v1/ for other programs, and the same as a classic script for our own pages.

A page opened from a file may not fetch, so the script carries everything the check and the matrix need.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

from generator.site.verdicts import ORDER, Row

VERSION = 1
PUBLISHED = ("from", "through", "into", "verdict", "findings", "number")


def files(catalogue: Mapping[str, Any], rulebook: Any, mated: Mapping[str, Any], plugs: Any, rows: list[Row]) -> dict[str, bytes]:
    """The data files of the docs tree: path -> content. `catalogue`, `rulebook` and `plugs`
    (what one sees of each connector) are JSON-ready."""
    verdicts = [{key: row[key] for key in PUBLISHED} for row in rows]
    return {
        f"data/v{VERSION}/catalogue.json": _json({"version": VERSION, **catalogue}),
        f"data/v{VERSION}/verdicts.json": _json({"version": VERSION, "verdicts": verdicts}),
        "assets/js/data.js": _script({"data": catalogue, "rulebook": rulebook}),
        "assets/js/table.js": _script({"mated": mated, "table": _table(rows)}),
        "assets/js/plugs.js": _script({"plugs": plugs}),
    }


def _table(rows: list[Row]) -> dict[str, Any]:
    """Rows with every repeated word said once: each row is [from, leads, into, verdict, findings] as numbers into the lists."""
    ids, findings = _Numbers(), _Numbers()
    short = [[ids[row["from"]], [ids[lead] for lead in row["through"]], ids[row["into"]], ORDER.index(row["verdict"]),
              [findings[name] for name in row["findings"]]] for row in rows]
    return {"ids": list(ids), "findings": list(findings), "verdicts": list(ORDER), "rows": short}


class _Numbers(dict):
    """Gives every new key the next number."""

    def __missing__(self, key: str) -> int:
        return self.setdefault(key, len(self))


def _json(value: Any) -> bytes:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"), allow_nan=False).encode() + b"\n"


def _script(values: Mapping[str, Any]) -> bytes:
    """`</` is broken up so that no text of ours could end a script element, wherever the file is pasted."""
    lines = [b'"use strict";\nwindow.Ringfence = window.Ringfence || {};\n']
    for name, value in values.items():
        lines.append(f"Ringfence.{name} = ".encode() + _json(value).strip().replace(b"</", b"<\\/") + b";\n")
    return b"".join(lines)
