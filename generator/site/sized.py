"""Room kept for pictures before they are there: an image of a drawing is given the drawing's
own width and height."""

from __future__ import annotations

import re
from collections.abc import Mapping

IMAGE = re.compile(r'<img (?![^>]*\bwidth=)([^>]*?src="(?:\.\./)*(draw/[\w.-]+\.svg)"[^>]*)>')
SIZE = re.compile(rb'<svg[^>]* viewBox="0 0 ([\d.]+) ([\d.]+)"')


def sized(page: str, drawn: Mapping[str, bytes]) -> str:
    """A page with both sizes, in px, on every image of a drawing that has none; `drawn` is path -> SVG."""

    def with_sizes(image: re.Match) -> str:
        found = SIZE.search(drawn.get(image[2], b""))
        if found is None:
            return image[0]
        wide, high = (round(float(number)) for number in found.groups())
        return f'<img {image[1]} width="{wide}" height="{high}">'

    return IMAGE.sub(with_sizes, page)
