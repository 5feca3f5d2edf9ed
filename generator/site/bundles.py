"""Scripts and styles as the pages load them: readable sources joined, so that a page asks for few files.

Every folder of scripts is one file; what only "show the working" needs is apart: how it is shown, asked for
when a verdict is on the screen, and how it is worked out, asked for by the tap. Judging runs through several:
the engine answers, the check asks, a worker stands between. Styles are one file for every page and one more
for pages with a tool on them, which are those that load `ui`; what only few pages need is apart. Pages made
for frames also find each by its own name.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from fnmatch import fnmatch

from generator.engine import constants
from generator.site import modules

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
        # the reader of what is packed, and what lists of ports are sorted by: there before the engine is
        "data": ("columns/columns.js", "engine/kinds.js"),
        # answers, asks, and what is a thread of its own
        "engine": ("judging/kinds.js",),
        "check": ("judging/ask.js",),
        "worker": ("judging/worker.js",),
    }.items()
    for path in paths
}
NEEDS = {  # what has run before a script, wherever it is loaded; from no other may it import
    "adapter": ("ui", "check", "ways"),
    "bag": ("ui", "check", "ways", "kit"),
    "bench": ("ui", "check"),
    "cards": ("ui",),
    "check": ("ui",),
    "class": ("ui",),
    "embed": ("ui", "check"),
    "engine": ("data",),
    "explain": ("data", "engine"),
    "hum": ("ui", "interference"),
    "kit": ("ui", "ways"),
    "matrix": ("ui",),
    "message": ("ui", "check", "qr"),
    "mine": ("ui", "own", "qr"),
    "own": ("data", "engine", "ui"),
    "pads": ("ui",),
    "recognise": ("ui",),
    "run": ("ui", "interference", "hum"),
    "trace": ("ui",),
    "upkeep": ("ui", "qr"),
    "ways": ("data", "ui", "check"),
    "working": ("engine", "ui", "check"),
    "workshop": ("ui",),
}
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
    names = [path.removeprefix(STYLES) for path in assets if path.startswith(STYLES)]
    shared = sorted((name for name in names if name not in OWN and not fnmatch(name, FRAMED)), key=_place)
    scripts = _scripts(
        made()
        | {
            path.removeprefix(SCRIPTS): content
            for path, content in assets.items()
            if path.startswith(SCRIPTS)
        }
    )
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


def made() -> dict[str, bytes]:
    """The modules that nobody writes, path -> content: the engine's table of numbers, and what has to run
    before a script that is loaded later."""
    needed = {
        name: [one for one in needs if one != "ui"] for name, needs in NEEDS.items() if set(needs) - {"ui"}
    }
    return {"engine/constants.js": as_module(constants.values()), "ui/needs.js": as_module({"NEEDS": needed})}


def as_module(values: Mapping[str, object]) -> bytes:
    """Each value under its name."""
    return "".join(f"export const {name} = {json.dumps(value)};\n" for name, value in values.items()).encode()


def _scripts(sources: Mapping[str, bytes]) -> dict[str, bytes]:
    read, bundles = modules.read(sources), {}
    for path, module in read.items():
        mine = bundle_of(path)
        bundles.setdefault(mine, []).append(path)
        for other in module.imports:
            if bundle_of(other) not in (mine, *NEEDS.get(mine, ())):
                raise ValueError(
                    f"{path} imports {other}, of {bundle_of(other)}.js, which need not be there when "
                    f"{mine}.js runs."
                )
    return {name: modules.classic(read, paths) for name, paths in bundles.items()}


def bundle_of(script: str) -> str:
    return APART.get(script, script.split("/")[0])


def scripts_of(*bundles: str) -> list[str]:
    """The paths of bundles, in the order in which a page loads them. Raises ValueError where one comes
    before what it needs."""
    for place, bundle in enumerate(bundles):
        for other in NEEDS.get(bundle, ()):
            if other not in bundles[:place]:
                raise ValueError(f"{bundle}.js is loaded without {other}.js before it.")
    return [f"{SCRIPTS}{bundle}.js" for bundle in bundles]


def _place(style: str) -> tuple[int, str]:
    return FIRST.index(style) if style in FIRST else len(FIRST), style
