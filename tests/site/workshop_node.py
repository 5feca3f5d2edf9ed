"""The workshop's scripts, run by node."""

import json

from front import STORAGE, run, scripts


def in_node(tmp_path):
    """node(expression, scripts, data, before): the value of an expression with data put on `Ringfence`."""

    def node(expression, loaded, data=None, before=STORAGE):
        file = tmp_path / "data.json"
        file.write_text(json.dumps(data or {}))
        return run(expression, scripts("ui/dom.js", "ui/words.js", *loaded), file, before)

    return node
