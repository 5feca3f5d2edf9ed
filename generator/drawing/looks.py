"""How each look is painted, as presentation attributes: the fallback where no stylesheet speaks.

Strokes and tints are `currentColor`, so a picture inlined on a light or a dark page takes that page's
ink. A site may restyle any look through its class, `rf-` and the look's name. Conductors differ by
line pattern, never by hue.
"""

from __future__ import annotations

PREFIX = "rf-"

# Okabe and Ito, "Color Universal Design: how to make figures and presentations that are friendly to
# colorblind people" (2002, revised 2008), https://jfly.uni-koeln.de/color/
OKABE_ITO = {
    "orange": "#e69f00",
    "sky blue": "#56b4e9",
    "bluish green": "#009e73",
    "vermillion": "#d55e00",
    "reddish purple": "#cc79a7",
    "blue": "#0072b2",
}
# a standalone picture brings its own light ground, readable on any page
PANEL, PANEL_INK = "#f6f4ef", "#1d1d1f"
DARK = {"panel": "#1e2024", "ink": "#edebe5"}  # and a dark one for who reads in the dark


def _stroke(
    width: float, dash: str | None = None, opacity: float | None = None, cap: str = "round"
) -> dict[str, str]:
    attributes = {
        "fill": "none",
        "stroke": "currentColor",
        "stroke-width": str(width),
        "stroke-linecap": cap,
        "stroke-linejoin": "round",
    }
    if dash:
        attributes["stroke-dasharray"] = dash
    if opacity:
        attributes["stroke-opacity"] = str(opacity)
    return attributes


def _tint(opacity: float, width: float = 1.5) -> dict[str, str]:
    return {
        "fill": "currentColor",
        "fill-opacity": str(opacity),
        "stroke": "currentColor",
        "stroke-width": str(width),
        "stroke-linejoin": "round",
    }


CORES = ("core-1", "core-2", "core-3", "core-4", "core-5", "core-6")

LOOKS: dict[str, dict[str, str]] = {
    "ink": {"fill": "currentColor"},
    "quiet": {"fill": "currentColor", "fill-opacity": "0.78"},
    "line": _stroke(1.5),
    "heavy": _stroke(2.5),
    "hair": _stroke(1, opacity=0.55),
    "dots": _stroke(1, "1.5 3.5", opacity=0.8),
    "solid": {"fill": "currentColor"},
    "metal": _tint(0.14),
    "shade": {"fill": "currentColor", "fill-opacity": "0.1"},
    "insulator": _tint(0.82, 1),
    "plate": _tint(0.05),
    "block": _tint(0.3),
    "dark": _tint(0.72, 1),
    "shine": {"fill": "currentColor", "fill-opacity": "0.1"},
    "panel-wall": _tint(0.2, 0.5),
    "cut": _stroke(5, cap="butt"),
    "floor": {
        "fill": "currentColor",
        "fill-opacity": "0.06",
        "stroke": "currentColor",
        "stroke-width": "1.5",
    },
    "hollow": _tint(0.55, 1.5),
    "blade": _stroke(6, opacity=0.6, cap="butt"),
    # in the colour of the ground, with an edge
    "window": {"fill": PANEL, "stroke": "currentColor", "stroke-width": "2"},
    "cutout": {"fill": PANEL},
    "mouth": _stroke(4, cap="butt"),
    # in the colour of the ground, over what is filled
    "knock": {"fill": PANEL},
    "knock-hair": {"fill": "none", "stroke": PANEL, "stroke-width": "1"},
    "dot": {"fill": OKABE_ITO["vermillion"], "stroke": "currentColor", "stroke-width": "1"},
    "device": _tint(0.12, 2.5),
    "socket": _stroke(2.5),
    "pin": _tint(1, 1.5),
    "cup": {"fill": "currentColor", "fill-opacity": "0.22"},
    "range": {"fill": "currentColor", "fill-opacity": "0.35"},
    "core-1": _stroke(2.25),
    "core-2": _stroke(2.25, "9 5"),
    "core-3": _stroke(2.75, "1.5 5"),
    "core-4": _stroke(2.25, "11 5 1 5"),
    "core-5": _stroke(2.25, "5 4"),
    "core-6": _stroke(2.25, "11 5 1 5 1 5"),
    "screen": _stroke(1.5, "3 3.5", cap="butt"),
    "braid": _stroke(8, opacity=0.16, cap="butt"),
    "envelope": _stroke(1.5, "3 3.5", cap="butt") | {"fill": "currentColor", "fill-opacity": "0.06"},
    "mate": _stroke(5, opacity=0.5, cap="butt"),
    # painted under a wire in the ground colour so that crossings read; nothing without a ground to match
    "gap": {"fill": "none", "stroke": "none", "stroke-width": "8"},
    "marked": {
        "fill": "none",
        "stroke": OKABE_ITO["vermillion"],
        "stroke-width": "9",
        "stroke-opacity": "0.5",
        "stroke-linejoin": "round",
    },
    "panel": {"fill": PANEL, "stroke": "currentColor", "stroke-width": "1", "stroke-opacity": "0.25"},
    "glyph": {
        "fill": "none",
        "stroke": "#000000",
        "stroke-width": "2.4",
        "stroke-linecap": "round",
        "stroke-linejoin": "round",
    },
}
for _verdict, _colour in (
    ("safe", "bluish green"),
    ("lossy", "orange"),
    ("no-signal", "sky blue"),
    ("dangerous", "vermillion"),
    ("does-not-fit", "reddish purple"),
):
    LOOKS[_verdict] = {
        "fill": OKABE_ITO[_colour],
        "stroke": "currentColor",
        "stroke-width": "1.5",
        "stroke-linejoin": "round",
    }

# kind -> colour (None: the ink), line pattern. The pattern alone tells them apart; an edge in ink
# keeps every colour readable
ROLES = {
    "hot": ("blue", None),
    "cold": ("orange", "9 5"),
    "ground": (None, "2 4"),
    "second": ("bluish green", "15 4"),
    "supply": ("vermillion", "5 3"),
    "data": ("sky blue", "9 3 2 3"),
    "other": ("reddish purple", "9 3 2 3 2 3"),
    "unknown": (None, "1 7"),
}
LOOKS["word"] = {"fill": "currentColor"}
LOOKS["role-edge"] = {"fill": "none", "stroke": "currentColor", "stroke-width": "7", "stroke-opacity": "0.85"}
LOOKS["role-none"] = LOOKS["role-nothing"] = {
    "fill": "none",
    "stroke": "currentColor",
    "stroke-width": "1",
    "stroke-opacity": "0.4",
}
for _kind, (_colour, _dash) in ROLES.items():
    LOOKS[f"role-{_kind}"] = {
        "fill": "none",
        "stroke": OKABE_ITO[_colour] if _colour else PANEL,
        "stroke-width": "4.5",
    } | ({"stroke-dasharray": _dash} if _dash else {})

# looks that take the colour of the ground, and by which attribute
GROUND = {
    "panel": "fill",
    "gap": "stroke",
    "knock": "fill",
    "knock-hair": "stroke",
    "window": "fill",
    "cutout": "fill",
    "role-ground": "stroke",
    "role-unknown": "stroke",
}
ON_PANEL = {"gap": {"stroke": PANEL}}  # what changes when the ground is known
