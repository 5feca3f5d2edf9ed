"""JSON Schema of every kind of file, for editors, from the same declaration that checks it."""

from __future__ import annotations

import json
from pathlib import Path

from .kinds import KINDS


def json_schema(kind: str) -> dict:
    """The schema of a kind of file: connectors, assignments, circuits, cables, ports,
    leads, sources or retired."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": f"pinouts: {kind}",
        **KINDS[kind].schema(),
    }


def write_schemas(directory: Path) -> None:
    """Writes one `kind.json` for every kind into the directory."""
    directory.mkdir(parents=True, exist_ok=True)
    for kind in KINDS:
        (directory / f"{kind}.json").write_text(as_text(kind), "utf-8")


def as_text(kind: str) -> str:
    return json.dumps(json_schema(kind), indent=1) + "\n"
