"""The page of printable cards. Cards are laid out in the browser from the published data, so that any set of
them needs no page of its own."""

from __future__ import annotations

from generator.catalogue.records import Catalogue
from generator.site.bundles import scripts_of
from generator.site.drawings import Drawings
from generator.site.page import Page


def page(catalogue: Catalogue, pictures: Drawings) -> Page:
    """The page."""
    shown = {
        "scripts": scripts_of("data", "called", "circuits", "printed", "ui", "cards"),
        "faces": {record: faces(pictures, record) for record in catalogue.connectors},
    }
    return Page("cards/", "cards", "Cards", catalogue, shown)


def faces(pictures: Drawings, connector: str) -> list[str]:
    """The drawings on a connector's card, by name: the first view of each half."""
    first, *others = pictures.views("connectors", connector)
    return [first.name, *(view.name for view in others if view.view == first.view)]
