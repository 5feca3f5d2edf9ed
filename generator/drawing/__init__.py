"""Pictures of the catalogue's records, as SVG text.

Every function takes `prefix`, which starts all ids of the picture (give each picture on a page its
own), and `standalone`: True for a file with a ground of its own, False for a picture to be inlined,
which then takes the page's ink.
"""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches

from generator.catalogue.light import all_light
from generator.catalogue.records import Catalogue, Connector, Port
from generator.drawing import bands, bodies, chains, faces, leads, plots, plugs, runs, schematic, svg
from generator.drawing.marks import mark
from generator.drawing.scene import Scene
from generator.engine.working import Working

__all__ = [
    "draw",
    "draw_chain",
    "draw_mated",
    "draw_scene",
    "draw_schematic",
    "mark",
    "plots",
    "runs",
    "views",
]

SIDE = "side"
VIEWS = {
    "circular": ("face", "solder", SIDE),
    "coaxial": ("face", "solder", SIDE),
    "rectangular": ("face", "solder", SIDE),
    "concentric": ("plug", SIDE),
}


def views(connector: Connector) -> tuple[str, ...]:
    """The views it has, the side last; none from a solder side where there is none."""
    return tuple(view for view in VIEWS[connector.shape] if view != "solder" or not all_light(connector))


def draw(
    catalogue: Catalogue,
    id: str,
    view: str | None = None,
    half: str | None = None,
    prefix: str | None = None,
    standalone: bool = True,
    mount: str | None = None,
) -> str:
    """The picture of a connector, an assignment or port (with what each contact carries) or a lead.

    `view` is face or solder for connectors with a face, plug for phone connectors, side for all of them, lead
    for leads; the first that suits if None. `half` is male, female, plug or jack; `mount` is cable or panel,
    for the side view. Raises ValueError, in one sentence, for an id, view or half that does not exist.
    """
    if id in catalogue.leads:
        if view not in (None, "lead"):
            raise ValueError(f"'{id}' is a lead and has no view '{view}'; it has lead")
        if half is not None:
            raise ValueError(f"'{id}' is a lead and is drawn whole; it has no half to choose")
        return svg.write(leads.lead(catalogue, catalogue.leads[id]), prefix or f"{id}-lead", standalone)
    connector, roles, name, fixed = _subject(catalogue, id)
    view = _chosen("view", view, views(connector), id, connector)
    half = _chosen("half", half, (fixed,) if fixed else tuple(connector.halves), id, connector)
    if mount is not None and view != SIDE:
        raise ValueError(
            f"'{id}' is on a cable or in a panel only in the view {SIDE}; its {view} is the same"
        )
    if view == SIDE:
        scene = bodies.silhouette(connector, half, mount)
    elif view == "plug":
        scene = (bands.plug if half == "plug" else bands.jack)(connector, roles, name)
    else:
        scene = faces.face(connector, half, view, roles, name)
    return svg.write(scene, prefix or "-".join(filter(None, (id, view, half, mount))), standalone)


def draw_chain(
    catalogue: Catalogue,
    from_port: Port,
    through: chains.Through,
    into_port: Port,
    marks: Iterable[str] = (),
    *,
    prefix: str = "chain",
    standalone: bool = True,
) -> str:
    """A whole connection; see chains.chain."""
    return svg.write(chains.chain(catalogue, from_port, through, into_port, marks), prefix, standalone)


def draw_schematic(working: Working, *, prefix: str = "schematic", standalone: bool = True) -> str:
    """What decides a verdict, as a schematic; see schematic.schematic."""
    return svg.write(schematic.schematic(working), prefix, standalone)


def draw_scene(scene: Scene, *, prefix: str, standalone: bool = True) -> str:
    """A scene of `plots` or `runs`, which are made from plain numbers and words instead of records."""
    return svg.write(scene, prefix, standalone)


def draw_mated(
    catalogue: Catalogue, plug: str, jack: str, *, prefix: str | None = None, standalone: bool = True
) -> str:
    """A phone plug home in a jack, by connector ids. Raises ValueError if the plug does not go in."""
    scene: Scene = plugs.mated(_connector(catalogue, plug), _connector(catalogue, jack))
    return svg.write(scene, prefix or f"{plug}-in-{jack}", standalone)


def _subject(catalogue: Catalogue, id: str) -> tuple[Connector, dict[str, str], str | None, str | None]:
    """What is drawn for an id: the connector, its roles, the title if it is not the connector's, and
    the half if it is given."""
    if id in catalogue.assignments:
        assignment = catalogue.assignments[id]
        return catalogue.connectors[assignment.connector], dict(assignment.carries), assignment.name, None
    if id in catalogue.ports:
        port = catalogue.ports[id]
        return (
            catalogue.connectors[port.connector],
            dict(catalogue.assignments[port.assignment].carries),
            port.name,
            port.half,
        )
    return _connector(catalogue, id), {}, None, None


def _connector(catalogue: Catalogue, id: str) -> Connector:
    if id not in catalogue.connectors:
        known = [*catalogue.connectors, *catalogue.assignments, *catalogue.ports, *catalogue.leads]
        near = get_close_matches(id, known, n=1)
        raise ValueError(
            f"nothing called '{id}' can be drawn" + (f"; did you mean '{near[0]}'?" if near else "")
        )
    return catalogue.connectors[id]


def _chosen(what: str, wanted: str | None, allowed: tuple[str, ...], id: str, connector: Connector) -> str:
    if wanted is not None and wanted not in allowed:
        raise ValueError(f"'{id}' ({connector.name}) has no {what} '{wanted}'; it has {', '.join(allowed)}")
    return wanted or allowed[0]
