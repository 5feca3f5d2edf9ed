"""The drawings of the site: files under /draw/ for anyone, and the same inline on the record's own page."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from generator.catalogue.light import all_light
from generator.catalogue.outside import MOUNTS
from generator.catalogue.records import Catalogue, Connector
from generator.drawing import SIDE, draw, small, svg, views
from generator.drawing.faces import lit
from generator.site.page import KINDS

SIZE = re.compile(r'viewBox="0 0 ([\d.]+) ([\d.]+)"')
FRAME = 340  # px

CAPTIONS = {
    ("face", "male"): "Looking at the pins.",
    ("face", "female"): "Looking into the holes.",
    ("solder", "male"): "The solder side, behind the pins.",
    ("solder", "female"): "The solder side, behind the holes.",
    ("face", "plug"): "Looking at the plug.",
    ("face", "jack"): "Looking into the jack.",
    ("solder", "plug"): "The solder side of the plug.",
    ("solder", "jack"): "The solder side of the jack.",
    ("plug", "plug"): "The plug, in true proportion.",
    ("plug", "jack"): "The jack, with its springs where they touch a plug.",
}


@dataclass(frozen=True)
class View:
    """One picture of a record: its file name under /draw/ without the ending, and how it is asked for."""

    name: str
    caption: str
    view: str | None = None
    half: str | None = None


class Drawings:
    """Draws every record of a catalogue."""

    def __init__(self, catalogue: Catalogue):
        self._catalogue = catalogue

    def files(self) -> dict[str, bytes]:
        """/draw/KIND-ID.svg for every record, further views beside it, and a retired id's one successor under
        the old name; and the side views, /draw/side-ID-HALF.svg as the half comes on a cable (in a panel
        where it comes on none), -panel.svg where it comes so too, and side-ID.svg for the first of them; and
        the small faces, /draw/face-ID-HALF.svg."""
        found = {
            f"draw/{name}.svg": draw(
                self._catalogue, connector, SIDE, half, f"draw-{name}", mount=mount
            ).encode()
            for name, connector, half, mount in self.sides()
        }
        # by the connector's name alone: the first half as it comes first
        for name, connector, *_ in self.sides():
            found.setdefault(f"draw/side-{connector}.svg", found[f"draw/{name}.svg"])
        found |= {
            f"draw/face-{connector.id}-{half}.svg": svg.write(scene, f"face-{connector.id}-{half}").encode()
            for connector in self._catalogue.connectors.values()
            for half in connector.halves
            for scene in [small.picture(connector, half)]
            if scene
        }
        for kind in KINDS:
            for record in getattr(self._catalogue, kind):
                for view in self.views(kind, record):
                    found[f"draw/{view.name}.svg"] = self._draw(record, view, standalone=True).encode()
        for old, successors in self._catalogue.retired.items():
            for kind in KINDS:
                living = [new for new in successors if new in getattr(self._catalogue, kind)]
                if len(living) == 1:
                    found[f"draw/{kind[:-1]}-{old}.svg"] = found[f"draw/{kind[:-1]}-{living[0]}.svg"]
        return found

    def sides(self) -> Iterator[tuple[str, str, str, str]]:
        """Each side view: the name of its file, connector, half, mount."""
        for connector in self._catalogue.connectors.values():
            for half, mounts in connector.outside.body.items():
                for number, mount in enumerate(one for one in MOUNTS if one in mounts):
                    yield (
                        f"side-{connector.id}-{half}{f'-{mount}' if number else ''}",
                        connector.id,
                        half,
                        mount,
                    )

    def inline(self, kind: str, record: str) -> list[dict[str, str]]:
        """The pictures of one record for its own page, with captions, the name of their file, and their
        height where they are as wide as the frame offered for another page."""
        found = []
        for view in self.views(kind, record):
            svg = self._draw(record, view, standalone=False)
            width, height = map(float, SIZE.search(svg).groups())
            found.append(
                {
                    "svg": svg,
                    "caption": view.caption,
                    "name": view.name,
                    "high": round(height / width * FRAME),
                }
            )
        return found

    def _draw(self, record: str, view: View, standalone: bool) -> str:
        return draw(
            self._catalogue,
            record,
            view=view.view,
            half=view.half,
            prefix=f"draw-{view.name}",
            standalone=standalone,
        )

    def views(self, kind: str, record: str) -> Iterator[View]:
        """The pictures of one record; the first goes by the record's name alone."""
        name = f"{kind[:-1]}-{record}"
        if kind == "leads":
            yield View(name, "Which contact joins which.")
            return
        for number, (view, half) in enumerate(self._pairs(kind, record)):
            caption = _caption(self._connector(kind, record), view, half)
            yield View(name if number == 0 else f"{name}-{half}-{view}", caption, view, half)

    def _pairs(self, kind: str, record: str) -> list[tuple[str, str]]:
        """(view, half) of each picture: a port shows its own half, the others both."""
        subject, connector = getattr(self._catalogue, kind)[record], self._connector(kind, record)
        halves = (subject.half,) if kind == "ports" else tuple(connector.halves)
        return [(view, half) for view in views(connector) if view != SIDE for half in halves]

    def _connector(self, kind: str, record: str) -> Connector:
        subject = getattr(self._catalogue, kind)[record]
        return self._catalogue.connectors[record if kind == "connectors" else subject.connector]


def _caption(connector: Connector, view: str, half: str) -> str:
    if all_light(connector) and view == "face":
        return f"Looking {lit(connector, half)}."
    if all_light(connector) and half == "jack":
        return "The socket, with the lamp or the eye at its bottom."
    return CAPTIONS[view, half]
