"""The site's scripts, run by node without a page: the value of an expression, with the catalogue or a
small one in its place."""

import json
import shutil
import subprocess
from functools import cache
from pathlib import Path

import pytest

from generator.site import bundles, modules

SCRIPTS = Path(__file__).parents[1] / "site_src/assets/js"

# What a browser has and node does not; a forbidden storage is one that throws.
STORAGE = """const kept = {}; globalThis.localStorage = {
  getItem: (key) => (Object.hasOwn(kept, key) ? kept[key] : null), setItem: (key, text) => {
    kept[key] = String(text); } };"""
FORBIDDEN = (
    "globalThis.localStorage = { getItem() { throw new Error('refused'); "
    "}, setItem() { throw new Error('refused'); } };"
)


@cache
def sources() -> dict[str, bytes]:
    """Every module of the site: path -> content."""
    return bundles.made() | {
        path.relative_to(SCRIPTS).as_posix(): path.read_bytes() for path in sorted(SCRIPTS.rglob("*.js"))
    }


@cache
def read():
    return modules.read(sources())


def scripts(*names: str) -> list[str]:
    """Modules by path; a name without an ending is a folder."""
    return [path for name in names for path in sources() if path == name or path.rpartition("/")[0] == name]


def joined(loaded: list[str], changed: dict[str, bytes] | None = None) -> str:
    """The modules and all they import as one classic script. `changed`: other sources for some."""
    known = modules.read(sources() | changed) if changed else read()
    return modules.classic(known, modules.ordered(known, loaded)).decode()


def run(
    expression: str,
    loaded: list[str],
    data: Path,
    before: str = STORAGE,
    changed: dict[str, bytes] | None = None,
):
    """The value of a JavaScript expression. `data` is a file of JSON with what is put on `Ringfence`: data,
    mated, table, rulebook."""
    program = f"""globalThis.window = globalThis; globalThis.Ringfence = {{}}; console.error = () => {{}};
Object.assign(Ringfence, JSON.parse(require("node:fs").readFileSync({json.dumps(str(data))}, "utf8")));
{before}
{joined(loaded, changed)}
const {{ ui, check, bench, bag }} = Ringfence;
Promise.resolve({expression}).then((value) => process.stdout.write(JSON.stringify(value === undefined ? null :
  value)));"""
    return in_node(program)


def in_node(program: str):
    """What a program writes, read as JSON."""
    if shutil.which("node") is None:
        pytest.skip("node not installed")
    done = subprocess.run(["node", "-"], input=program, capture_output=True, text=True, timeout=300)
    assert done.returncode == 0, done.stderr[-2000:]
    return json.loads(done.stdout)
