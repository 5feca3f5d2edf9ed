"""Scripts and styles as the pages load them: readable sources joined end to end, so that a
page asks for few files.

Every folder of scripts is one file, in name order; what only "show the working" needs is apart: how it is
shown, asked for when a verdict is on the screen, and how it is worked out, asked for by the tap. Judging runs
through several: the engine answers, the check asks, a worker stands between. Styles are one file for every
page and one more for pages with a tool on them, which are those that load `ui`; what only few pages need is
apart. Pages made for frames also find each by its own name.
"""

from __future__ import annotations

from collections.abc import Mapping
from fnmatch import fnmatch

SCRIPTS, STYLES = "assets/js/", "assets/css/"
SITE, TOOLS = f"{STYLES}site.css", f"{STYLES}tools.css"  # theme/main.html asks for them
APART = {
    path: bundle
    for bundle, paths in {
        "explain": (
            "engine/cases.js",
            "engine/explain.js",
            "engine/naming.js",
            "engine/relevant.js",
            "engine/shown.js",
            "engine/slices.js",
        ),
        "working": (
            "check/ladder.js",
            "check/nets.js",
            "check/schematic.js",
            "check/symbols.js",
            "check/wanted.js",
            "check/working.js",
        ),
        "data": ("engine/kinds.js",),  # what lists of ports are sorted by: there before the engine is
        # answers, asks, and what is a thread of its own
        "engine": ("judging/kinds.js", "judging/solved.js"),
        "check": ("judging/ask.js",),
        "worker": ("judging/worker.js",),
    }.items()
    for path in paths
}
# made from the engine's own table; the other scripts of the engine read it as they are loaded
CONSTANTS = f"{SCRIPTS}engine/constants.js"
FIRST = ("palette.css", "frame.css", "records.css", "check.css")  # styles that others build on
OF_TOOLS = ("check.css", "bag.css", "bench.css", "own.css", "pictures.css", "recognise.css", "ways.css")
FRAMED = "embed*.css"
# styles that only some pages need, asked for by these
OWN = (
    "workshop.css",
    "adapter.css",
    "hum.css",
    "class.css",
    "question.css",
    "matrix.css",
    "cards.css",
    "mine.css",
    "run.css",
    "plugs.css",
)


def joined(assets: Mapping[str, bytes]) -> dict[str, bytes]:
    """The assets of a docs tree (path -> content), with bundles in the place of scripts and the joined
    style beside the styles."""
    scripts: dict[str, bytes] = {}
    for path in sorted(assets, key=lambda path: (path != CONSTANTS, path)):
        if path.startswith(SCRIPTS):
            name = _bundle(path.removeprefix(SCRIPTS))
            scripts[name] = scripts.get(name, b"") + assets[path]
    names = [path.removeprefix(STYLES) for path in assets if path.startswith(STYLES)]
    shared = sorted((name for name in names if name not in OWN and not fnmatch(name, FRAMED)), key=_place)
    return (
        {path: content for path, content in assets.items() if not path.startswith(SCRIPTS)}
        | {f"{SCRIPTS}{name}.js": script for name, script in scripts.items()}
        | {
            sheet: b"".join(
                assets[STYLES + name] for name in shared if (name in OF_TOOLS) == (sheet == TOOLS)
            )
            for sheet in (SITE, TOOLS)
        }
    )


def scripts_of(*bundles: str) -> list[str]:
    """The paths of bundles, in the order in which a page loads them."""
    return [f"{SCRIPTS}{bundle}.js" for bundle in bundles]


def _bundle(script: str) -> str:
    return APART.get(script, script.split("/")[0])


def _place(style: str) -> tuple[int, str]:
    return FIRST.index(style) if style in FIRST else len(FIRST), style
