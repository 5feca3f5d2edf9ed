"""The site's scripts, run by node without a page: the value of an expression, with the catalogue or a
small one in its place."""

import json
import shutil
import subprocess
from pathlib import Path

import pytest

from generator.engine import constants

SCRIPTS = Path(__file__).parents[2] / "site_src/assets/js"

# What a browser has and node does not; a forbidden storage is one that throws.
STORAGE = """const kept = {}; globalThis.localStorage = {
  getItem: (key) => (Object.hasOwn(kept, key) ? kept[key] : null), setItem: (key, text) => { kept[key] = String(text); } };"""
FORBIDDEN = (
    "globalThis.localStorage = { getItem() { throw new Error('refused'); "
    "}, setItem() { throw new Error('refused'); } };"
)


def scripts(*names: str) -> list[Path]:
    """Scripts in the order pages load them; a name without an ending is a folder."""
    return [
        path
        for name in names
        for path in ([SCRIPTS / name] if name.endswith(".js") else sorted((SCRIPTS / name).glob("*.js")))
    ]


def run(expression: str, loaded: list[Path], data: Path, before: str = STORAGE):
    """The value of a JavaScript expression. `data` is a file of JSON with what is put on `Ringfence`: data,
    mated, table, rulebook."""
    source = "\n".join(path.read_text() for path in loaded).replace('"use strict";', "")
    program = f"""globalThis.window = globalThis; globalThis.Ringfence = {{ constants: {json.dumps(constants.values())} }}; console.error = () => {{}};
Object.assign(Ringfence, JSON.parse(require("node:fs").readFileSync({json.dumps(str(data))}, "utf8")));
{before}
{source}
const {{ ui, check, bench, bag }} = Ringfence;
Promise.resolve({expression}).then((value) => process.stdout.write(JSON.stringify(value === undefined ? null : value)));"""
    if shutil.which("node") is None:
        pytest.skip("node not installed")
    done = subprocess.run(["node", "-"], input=program, capture_output=True, text=True, timeout=300)
    assert done.returncode == 0, done.stderr[-2000:]
    return json.loads(done.stdout)
