"""The house rules of the site's scripts that a program can hold: which way imports run, what is handed over
at run time, how they are written."""

import re
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
SCRIPTS = ROOT / "site_src/assets/js"
MODULES = [path for path in sorted(SCRIPTS.rglob("*.js")) if path.name != "minisearch.js"]
MAY_IMPORT = {  # a folder: the others it may import from
    "columns": "",
    "engine": "",
    "interference": "",
    "faults": "",
    "qr": "",
    "seek": "",
    "page": "",
    "pinout": "",
    "plugs-sheet": "",
    "ui": "",
    "judging": "ui",
    "check": "judging ui",
    "ways": "check engine ui",
    "kit": "ui ways",
    "own": "engine ui",
    "hum": "interference ui",
    "message": "check qr ui",
    "adapter": "check ui ways",
    "bag": "check kit ui",
    "bench": "check ui",
    "cards": "ui",
    "class": "ui",
    "embed": "check ui",
    "matrix": "ui",
    "mine": "own qr ui",
    "pads": "ui",
    "recognise": "ui",
    "run": "hum interference ui",
    "trace": "ui",
    "upkeep": "qr ui",
    "workshop": "ui",
}
# a folder: those whose exports it reads from `Ringfence`, because they come later or not on every page
MAY_ASK = {
    "bench": "faults own page workshop",
    "cards": "own page",
    "check": "engine hum kit message own page seek ways",
    "class": "check",
    "hum": "judging",
    "interference": "engine",
    "judging": "engine interference",
    "matrix": "check own page",
    "message": "page ways",
    "own": "bench check ways",
    "page": "seek ui",
    "seek": "ui",
    "ui": "engine own",
    "ways": "engine",
}
# of other scripts than their folder: working.js and worker.js
APART = {
    "check/wanted.js": {"engine"},
    "check/working.js": {"engine"},
    "check/ladder.js": {"engine"},
    "check/further.js": {"check"},
    "check/later.js": {"check"},
    "judging/worker.js": {"judging"},
    "judging/ask.js": {"judging"},
}
IMPORT = re.compile(r'^import \{(.*?)\} from "(\.\.?/[\w./-]+)";$', re.MULTILINE | re.DOTALL)
HANDED = re.compile(r"\bRingfence\??\.([a-z-]+)\??\.(\w+)")
EXPORT = re.compile(
    r"^export (?:const|function\*?|async function|class) (\w+)|^export \{(.*?)\};$", re.MULTILINE | re.DOTALL
)


def name(path: Path) -> str:
    return path.relative_to(SCRIPTS).as_posix()


def imports(path: Path) -> list[str]:
    return [
        (path.parent / target).resolve().relative_to(SCRIPTS).as_posix()
        for _, target in IMPORT.findall(path.read_text())
    ]


def code(path: Path) -> str:
    return re.sub(r"/\*.*?\*/|(?<![:\"'`])//[^\n]*", "", path.read_text(), flags=re.DOTALL)


def exported() -> dict[str, set[str]]:
    """Folder -> names."""
    found: dict[str, set[str]] = {}
    for path in MODULES:
        for one, several in EXPORT.findall(path.read_text()):
            names = [one] if one else [each.split(" as ")[-1].strip() for each in several.split(",")]
            found.setdefault(name(path).split("/")[0], set()).update(names)
    return found


def backwards(room: str, others: set[str], allowed: dict[str, str]) -> set[str]:
    return {other for other in others if other != room and other not in allowed.get(room, "").split()}


def circle(arrows: dict[str, list[str]]) -> list[str]:
    """What is left when everything that imports nothing left is taken away, again and again."""
    left = dict(arrows)
    while ends := [one for one, others in left.items() if not any(other in left for other in others)]:
        for one in ends:
            del left[one]
    return sorted(left)


@pytest.mark.parametrize("path", MODULES, ids=name)
def test_imports_run_one_way(path):
    room = name(path).split("/")[0]
    assert path.read_text().count("\nimport ") == len(IMPORT.findall(path.read_text())), (
        "every import is one this reader knows"
    )
    assert (
        backwards(
            room,
            {target.split("/")[0] for target in imports(path)} - APART.get(name(path), set()),
            MAY_IMPORT,
        )
        == set()
    )


@pytest.mark.parametrize("path", MODULES, ids=name)
def test_what_is_handed_over_at_run_time_is_there_and_allowed(path):
    room, given = name(path).split("/")[0], exported()
    asked = {(folder, what) for folder, what in HANDED.findall(code(path)) if folder in given}
    assert {(folder, what) for folder, what in asked if what not in given[folder]} == set(), (
        "no file of that folder exports it"
    )
    assert (
        backwards(
            "", {folder for folder, _ in asked} - APART.get(name(path), set()), {"": MAY_ASK.get(room, "")}
        )
        == set()
    )


def test_every_folder_is_spoken_of_and_no_arrow_is_listed_in_vain():
    assert {name(path).split("/")[0] for path in MODULES} == set(MAY_IMPORT)
    used, read = (
        {(name(path).split("/")[0], other) for path in MODULES for other in some(path)}
        for some in (
            lambda path: [target.split("/")[0] for target in imports(path)],
            lambda path: [folder for folder, _ in HANDED.findall(code(path))],
        )
    )
    assert {(room, other) for room, others in MAY_IMPORT.items() for other in others.split()} <= used
    assert {(room, other) for room, others in MAY_ASK.items() for other in others.split()} <= read


def test_no_imports_go_in_a_circle():
    assert circle({name(path): imports(path) for path in MODULES}) == []


def test_folders_go_in_no_circle_either():
    assert circle({room: others.split() for room, others in MAY_IMPORT.items()}) == []


def test_the_engine_knows_nothing_of_pages():
    """What it is told it is told as arguments; of `Ringfence` it reads the table of
    powering, which is data."""
    engine = [path for path in MODULES if name(path).startswith("engine/")]
    assert {found for path in engine for found in re.findall(r"\bRingfence\.(\w+)", code(path))} == {
        "powering"
    }
    assert [
        name(path)
        for path in engine
        if re.search(r"\b(document|navigator|localStorage)\b|\b(window|location)\.", code(path))
    ] == []


def test_an_arrow_that_runs_back_and_a_circle_would_be_found():
    assert backwards("engine", {"engine", "ui"}, MAY_IMPORT) == {"ui"} and backwards(
        "check", {"ui", "ways"}, MAY_IMPORT
    ) == {"ways"}
    assert circle({"a": ["b"], "b": ["c"], "c": ["b"], "d": []}) == ["a", "b", "c"]
    assert imports(SCRIPTS / "check/later.js") == ["ui/dom.js", "ui/later.js"]


def test_scripts_are_formatted_and_say_nothing_a_linter_minds():
    biome = ROOT / "node_modules/.bin/biome"
    if not biome.exists():
        pytest.skip("biome not installed: .ci/prepare test")
    done = subprocess.run(
        [biome, "check", "--error-on-warnings", "--max-diagnostics=20"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        timeout=300,
    )
    assert done.returncode == 0, done.stdout + done.stderr
