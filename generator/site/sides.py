"""Side views as small images beside names: all at one scale, with the room they take told beforehand, so that nothing jumps."""

from __future__ import annotations

from functools import lru_cache

from markupsafe import Markup

from generator.catalogue.outside import MOUNTS
from generator.catalogue.records import Connector
from generator.drawing import bodies
from generator.drawing.scene import Scene
from generator.site.page import Page

SMALL = 0.45  # of the drawing's own size: the longest is then some 110 px long


@lru_cache(maxsize=None)
def _scene(connector: Connector, half: str, mount: str) -> Scene:
    return bodies.silhouette(connector, half, mount)


def mounts(connector: Connector, half: str) -> list[str]:
    """What a half is found on, the first being the one its picture shows unless another is asked for."""
    return [mount for mount in MOUNTS if mount in connector.outside.body.get(half, {})]


def image(page: Page, connector: str, half: str, mount: str | None = None, scale: float = SMALL, said: bool = False) -> Markup:
    """The <img> of a side view. `said` gives it words of its own; left out where its name stands beside it."""
    record = page.catalogue.connectors[connector]
    known = mounts(record, half)
    if not known:
        return Markup("")
    mount = mount if mount in known else known[0]
    scene = _scene(record, half, mount)
    address = page.to(f"draw/side-{connector}-{half}{'-' + mount if mount != known[0] else ''}.svg")
    return Markup('<img class="rf-side" src="{}" width="{}" height="{}" alt="{}" loading="lazy">').format(
        address, round(scene.width * scale), round(scene.height * scale), scene.title if said else "")
