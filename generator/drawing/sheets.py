"""Contact sheets: every picture of one kind beside the others on one page, light and dark, for whoever
changes how they are drawn."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

from generator.catalogue.outside import MOUNTS
from generator.catalogue.records import Catalogue, Connector
from generator.drawing import SIDE, draw, views

SHEETS = ("faces", "sides", "leads")
HEAD = """<!doctype html><html lang="en"><meta charset="utf-8"><title>{0}, {1}</title>
<style>html {{ color-scheme: {1}; }} body {{ margin: 12px; font: 12px sans-serif; }}
main {{ display: flex; flex-wrap: wrap; gap: 14px; align-items: end; }}
figure {{ margin: 0; }}</style><h1>{0}, {1}</h1><main>
"""


def sheets(catalogue: Catalogue) -> dict[str, str]:
    """Files of a folder: name -> text. Each sheet (SHEETS) as NAME-light.html and NAME-dark.html, and
    the pictures they show."""
    files: dict[str, str] = {}
    for sheet, found in (
        ("faces", faces(catalogue)),
        ("sides", sides(catalogue)),
        ("leads", leads(catalogue)),
    ):
        shown = dict(found)
        files |= {f"{name}.svg": svg for name, svg in shown.items()}
        body = "".join(
            f'<figure><img src="{name}.svg" alt=""><figcaption>{escape(name)}</figcaption></figure>\n'
            for name in shown
        )
        files |= {
            f"{sheet}-{scheme}.html": HEAD.format(sheet.capitalize(), scheme) + body + "</main>"
            for scheme in ("light", "dark")
        }
    return files


def commonest(catalogue: Catalogue, connector: Connector) -> str:
    """The id of the assignment one meets first on a connector, or its own where it has none."""
    mine = [one.id for one in catalogue.assignments.values() if one.connector == connector.id]
    return next((id for id in (*connector.outside.usual, *mine) if id in mine), connector.id)


def faces(catalogue: Catalogue) -> Iterator[tuple[str, str]]:
    for connector in catalogue.connectors.values():
        for view in (view for view in views(connector) if view != SIDE):
            for half in connector.halves:
                yield (
                    f"face-{connector.id}-{half}-{view}",
                    draw(catalogue, commonest(catalogue, connector), view, half),
                )


def sides(catalogue: Catalogue) -> Iterator[tuple[str, str]]:
    for connector in catalogue.connectors.values():
        for half, mounts in connector.outside.body.items():
            for mount in (one for one in MOUNTS if one in mounts):
                yield (
                    f"side-{connector.id}-{half}-{mount}",
                    draw(catalogue, connector.id, SIDE, half, mount=mount),
                )


def leads(catalogue: Catalogue) -> Iterator[tuple[str, str]]:
    return ((f"lead-{lead}", draw(catalogue, lead)) for lead in catalogue.leads)
