"""The house rules that a program can hold: which way imports run, how long a module may be,
what the solver may know."""

import ast
import re
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
PACKAGE = ROOT / "generator"
MODULES = sorted(PACKAGE.rglob("*.py"))
TESTS = sorted((ROOT / "tests").rglob("*.py"))
MAY_IMPORT = {
    "catalogue": {"catalogue"},
    "engine": {"catalogue", "engine"},
    "ledger": {"catalogue", "engine", "ledger"},
    "interference": {"catalogue", "engine", "interference"},
    "drawing": {"catalogue", "engine", "drawing"},
    "workshop": {"catalogue", "engine", "workshop"},
    "own": {"catalogue", "own"},
    "lessons": {"catalogue", "engine", "ledger", "workshop", "drawing", "lessons"},
    "site": {
        "catalogue",
        "engine",
        "ledger",
        "interference",
        "workshop",
        "drawing",
        "own",
        "lessons",
        "site",
    },
    "__init__": set(),
    "publishing": {"catalogue", "site"},
    "keeping": {"catalogue", "ledger"},
    "stopped": set(),
    "options": {"catalogue", "lessons", "publishing", "workshop"},
    "terminal": {"catalogue", "engine"},
    "__main__": {
        "catalogue",
        "engine",
        "ledger",
        "interference",
        "workshop",
        "drawing",
        "lessons",
        "site",
        "publishing",
        "keeping",
        "options",
        "own",
        "stopped",
        "terminal",
    },
}
MOST_LINES = 300
AUDIO_WORDS = (
    "microphone",
    "phantom",
    "audio",
    "mixer",
    "speaker",
    "hum",
    "screen",
    "hot",
    "cold",
    "listener",
    "mono",
    "stereo",
    "balanced",
    "ribbon",
    "capsule",
    "plugging",
    "plug",
    "jack",
    "lead",
    "cable",
    "port",
    "outlet",
    "inlet",
    "verdict",
    "dangerous",
    "dBu",
)


def name(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


def imported(path: Path) -> list[str]:
    """Dotted names of everything a module imports, relative ones made absolute."""
    package = path.relative_to(ROOT).with_suffix("").parts[:-1]
    found = []
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            found += [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            base = list(package[: len(package) - node.level + 1]) if node.level else []
            prefix = ".".join([*base, *([node.module] if node.module else [])])
            # `from generator import ledger` names a package, not something inside one
            found += (
                [f"{prefix}.{alias.name}" for alias in node.names]
                if prefix == "generator" or not node.module
                else [prefix]
            )
    return found


def house(path: Path) -> str:
    """The room a module stands in."""
    return path.relative_to(PACKAGE).parts[0].removesuffix(".py")


def backwards(room: str, names: list[str]) -> list[str]:
    """The imports of a room that run the wrong way."""
    own = [dotted.split(".")[1] for dotted in names if dotted.startswith("generator.")]
    return sorted(set(own) - MAY_IMPORT[room])


@pytest.mark.parametrize("path", MODULES, ids=name)
def test_imports_run_one_way(path):
    """catalogue <- engine <- drawing, workshop <- site <- __main__, and engine <- ledger <- __main__."""
    assert backwards(house(path), imported(path)) == []


def test_every_room_is_spoken_of():
    assert {house(path) for path in MODULES} == set(MAY_IMPORT)


def test_an_arrow_that_runs_back_would_be_found(tmp_path):
    assert backwards("engine", ["generator.site.words", "generator.catalogue", "numpy"]) == ["site"]
    assert backwards("drawing", ["generator.ledger"]) == ["ledger"]
    assert "generator.ledger" in imported(PACKAGE / "__main__.py")
    assert "generator.engine.judge" in imported(PACKAGE / "engine" / "matrix.py")


def test_no_file_grows_out_of_hand():
    """Aim at 150 lines, alarm at 300; of tests as well."""
    lines = {name(path): len(path.read_text("utf-8").splitlines()) for path in [*MODULES, *TESTS]}
    assert len(TESTS) > 200
    assert {path: count for path, count in lines.items() if count > MOST_LINES} == {}


def importers(library: str) -> list[str]:
    return [
        name(path) for path in MODULES if any(dotted.split(".")[0] == library for dotted in imported(path))
    ]


def test_one_module_knows_the_svg_library():
    assert importers("svgwrite") == ["generator/drawing/svg.py"]


def test_the_engine_is_pure():
    """It reads nothing but its tables and writes nothing."""
    for path in sorted((PACKAGE / "engine").glob("*.py")):
        libraries = {dotted.split(".")[0] for dotted in imported(path)}
        assert libraries.isdisjoint(
            {"os", "sys", "subprocess", "json", "socket", "urllib", "random", "time", "datetime"}
        ), path.name
        assert path.name in ("rulebook.py", "powering.py", "constants.py") or not libraries & {
            "pathlib",
            "yaml",
        }, path.name


def words(path: Path) -> set[str]:
    """Every word of a module, names like `hot_side` and `hotSide` taken apart."""
    return {word.lower() for word in re.findall(r"[A-Z]?[a-z]+|dBu", path.read_text("utf-8"))}


@pytest.mark.parametrize("module", ["circuit", "solve", "currents"])
def test_the_solver_does_not_know_what_the_circuit_is_for(module):
    found = words(PACKAGE / "engine" / f"{module}.py")
    assert {"emf", "nets"} <= found
    assert sorted(found & {word.lower() for word in AUDIO_WORDS}) == []


def test_only_the_command_line_prints():
    for path in MODULES:
        calls = [
            node.func.id
            for node in ast.walk(ast.parse(path.read_text("utf-8")))
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)
        ]
        assert "print" not in calls or path.name == "__main__.py", name(path)


def ruff(*asked: str, of: tuple = (PACKAGE, ROOT / "tests")) -> str:
    """What ruff finds, by the rules of pyproject.toml; nothing where it is content."""
    command = [sys.executable, "-m", "ruff", *asked, "--config", str(ROOT / "pyproject.toml"), "--no-cache"]
    done = subprocess.run([*command, *map(str, of)], capture_output=True, text=True)
    return f"{done.stdout}{done.stderr}" if done.returncode else ""


def test_python_is_laid_out_by_ruff():
    assert ruff("format", "--check") == ""


def test_ruff_finds_nothing():
    assert ruff("check") == ""


def test_what_is_laid_out_otherwise_would_be_found(tmp_path):
    file = tmp_path / "x.py"
    file.write_text("import os\nx = ( 1 )\n")
    assert "x.py" in ruff("format", "--check", of=(file,))
    assert "`os` imported but unused" in ruff("check", of=(file,))
