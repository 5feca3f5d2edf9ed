"""What the judging of a typed number costs the scripts' engine, in node, its data warm: processor time alone,
so that a busy machine tells nearly the same.

    PYTHONPATH=.:tests python tests/benchmarks/judging.py

Each question of own_number.py is judged as the catalogue has it, then with one number after the other; told
is the lower quartile of the processor's ms.
"""

from __future__ import annotations

import json
import tempfile
from pathlib import Path
from urllib.parse import parse_qs

from front import run, scripts
from own_number import TYPED

from generator.catalogue import default_directory, load
from generator.catalogue.published import as_data
from generator.engine.tables import tables

LOADED = scripts(
    "engine", "ui/dom.js", "ui/words.js", "ui/catalogue.js", "own/quantity.js", "own/said.js", "own/apply.js"
)
LONGEST = 20  # s for one of them
MEASURED = """(({ question, side, ask, first, step }) => {
  const { data, engine, own, rulebook } = Ringfence, took = [], id = `my.${side}`,
    asked = own.asksOf(question[side]).find((one) => one.id === ask),
    unit = own.units(own.question(asked))[0], begun = Date.now();
  engine.judge(data, rulebook, question);
  for (let k = 0; k < 200 && (k < 5 || Date.now() - begun < %d); k++) {
    const typed = `${(first + k * step).toFixed(4)} ${unit}`,
      { port } = own.changed(data.ports[question[side]], { [ask]: typed }),
      changed = { ...data, ports: { ...data.ports, [id]: { ...port, id } } }, before = process.cpuUsage();
    engine.judge(changed, rulebook, { ...question, [side]: id });
    const { user, system } = process.cpuUsage(before);
    took.push((user + system) / 1000);
  }
  return took.sort((a, b) => a - b)[took.length >> 2];
})(%s)"""


def main() -> None:
    published = as_data(load(default_directory()))
    asks = {name: port["asks"] for name, port in published["ports"].items()}
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "data.json"
        manual = {"questions": published["questions"], "asks": asks}
        file.write_text(json.dumps({"data": published, "manual": manual, **tables()}))
        for name, address, field, first, step in TYPED:
            (start,), (lead,), (target,) = (parse_qs(address)[key] for key in ("from", "through", "into"))
            side, _, ask = field.partition(".")
            question = {"from": start, "through": [lead], "into": target}
            typed = {"question": question, "side": side, "ask": ask, "first": first, "step": step / 3}
            took = run(MEASURED % (LONGEST * 1000, json.dumps(typed)), LOADED, file)
            print(f"{took:9.1f} ms   {name}", flush=True)


if __name__ == "__main__":
    main()
