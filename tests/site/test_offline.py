"""What is kept for offline use: everything the check needs, nothing that is not there, and a new version for every change."""

import json
import re
from pathlib import Path

from generator.site import offline

SOURCE = Path(__file__).parents[2] / "site_src"


def listed(tree) -> dict:
    return json.loads(re.fullmatch(r"self\.OFFLINE = (.*);\n", tree["offline-list.js"].decode(), re.DOTALL)[1])


def test_every_listed_file_is_built(tree):
    pages = {address: path for path, address in offline.PAGES.items()}
    for file in listed(tree)["files"]:
        assert file == offline.SEARCH or pages.get(file, file) in tree, f"{file} is listed and not built"


def test_the_check_can_do_without_a_network(catalogue, tree):
    files = set(listed(tree)["files"])
    assert {"", "check/", "matrix/", "assets/js/data.js", "assets/js/table.js"} <= files
    assert {path for path in tree if path.startswith("assets/")} <= files
    assert {f"draw/port-{port}.svg" for port in catalogue.ports} | {f"draw/lead-{lead}.svg" for lead in catalogue.leads} <= files


def test_a_phone_is_not_filled_up(tree):
    """The browsers of phones refuse or evict large stores; a reference of text and line drawings has no excuse."""
    kept = sum(len(tree[path]) for path in tree if path in listed(tree)["files"])
    assert kept < 8_000_000


def test_a_change_makes_a_new_version(tree):
    first = {path for path in tree if path.startswith("draw/")}
    again = offline.files(tree, SOURCE, first)
    changed = offline.files({**tree, "assets/js/data.js": b"other"}, SOURCE, first)
    assert listed(again)["version"] == listed(offline.files(tree, SOURCE, first))["version"]
    assert listed(again)["version"] != listed(changed)["version"]


def test_the_worker_deletes_only_its_own_stores_and_never_takes_over_unasked():
    worker = (SOURCE / "offline/sw.js").read_text()
    assert "name.startsWith(PREFIX)" in worker
    assert worker.count("skipWaiting") == 1 and '"take over") self.skipWaiting()' in worker
