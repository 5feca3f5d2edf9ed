"""Side views as small images beside names: all at one scale, with the room they take told beforehand,
so that nothing jumps."""

from __future__ import annotations

from functools import lru_cache

from markupsafe import Markup

from generator.catalogue.outside import MOUNTS
from generator.catalogue.records import Catalogue, Connector
from generator.drawing import bodies
from generator.drawing.pieces import PER_MM
from generator.drawing.scene import Scene
from generator.site.page import Page

CSS_MM = 96 / 25.4  # px of a page to the millimetre (CSS Values and Units, 6.2)
SMALL = 0.45  # of the drawing's own size: the longest is then some 110 px long


@lru_cache(maxsize=None)
def _scene(connector: Connector, half: str, mount: str) -> Scene:
    return bodies.silhouette(connector, half, mount)


def mounts(connector: Connector, half: str) -> list[str]:
    """What a half is found on, the first being the one its picture shows unless another is asked for."""
    return [mount for mount in MOUNTS if mount in connector.outside.body.get(half, {})]


def sizes(catalogue: Catalogue) -> dict[str, tuple[float, float]]:
    """Width and height of every half's first side view in px of the drawing, by `connector/half`: what a
    script keeps room for."""
    shown = (
        (connector, half, mounts(connector, half))
        for connector in catalogue.connectors.values()
        for half in connector.outside.body
    )
    return {
        f"{connector.id}/{half}": (scene.width, scene.height)
        for connector, half, found in shown
        if found
        for scene in [_scene(connector, half, found[0])]
    }


def image(
    page: Page,
    connector: str,
    half: str,
    mount: str | None = None,
    scale: float = SMALL,
    said: bool = False,
    true: bool = False,
) -> Markup:
    """The <img> of a side view. `said` gives it words of its own; left out where its name stands beside it;
    `true` makes it as large as the thing, as far as a page knows what a millimetre is."""
    record = page.catalogue.connectors[connector]
    known = mounts(record, half)
    if not known:
        return Markup("")
    mount = mount if mount in known else known[0]
    scene = _scene(record, half, mount)
    address = page.to(f"draw/side-{connector}-{half}{'-' + mount if mount != known[0] else ''}.svg")
    if true:
        mm = scene.width / PER_MM
        return Markup(
            '<img class="rf-side rf-true__size" data-mm="{}" src="{}" width="{}" height="{}" alt="" '
            'loading="lazy">'
        ).format(f"{mm:.2f}", address, round(mm * CSS_MM), round(scene.height / PER_MM * CSS_MM))
    return Markup('<img class="rf-side" src="{}" width="{}" height="{}" alt="{}" loading="lazy">').format(
        address, round(scene.width * scale), round(scene.height * scale), scene.title if said else ""
    )
