"""The pages of the bench and the bag: in the tree, in the navigation, kept for offline use, with their scripts after what these need."""

import json
import re

import pytest
import yaml

from front import SCRIPTS
from generator.site import offline

ROOT = SCRIPTS.parents[2]


@pytest.mark.parametrize("name", ["bench", "bag"])
def test_the_page_is_built_and_loads_its_scripts_last(tree, name):
    page = tree[f"{name}.md"].decode()
    assert f'id="rf-{name}"' in page and 'data-root="../"' in page and 'id="rf-status"' in page
    scripts = json.loads(re.search(r"^scripts: (\[.*\])$", page, re.MULTILINE)[1])
    assert scripts[:2] == ["assets/js/data.js", "assets/js/table.js"]
    folders = [path.split("/")[2] for path in scripts[2:]]
    assert list(dict.fromkeys(folders)) == ["engine", "ui", "check", name]
    assert [path for path in scripts if f"/{name}/" in path] == sorted(f"assets/js/{name}/{path.name}" for path in (SCRIPTS / name).glob("*.js"))
    assert set(scripts) <= set(tree)


@pytest.mark.parametrize("name", ["bench", "bag"])
def test_without_scripts_the_page_says_where_the_answers_stand(tree, name):
    assert f"The {name} needs scripts, and they are not running." in tree[f"{name}.md"].decode()


@pytest.mark.parametrize("name", ["bench", "bag"])
def test_the_page_works_without_a_network(tree, name):
    assert offline.PAGES[f"{name}.md"] == f"{name}/"
    assert f'"{name}/"' in tree["offline-list.js"].decode()


def test_the_check_knows_of_the_bag(tree):
    scripts = json.loads(re.search(r"^scripts: (\[.*\])$", tree["check.md"].decode(), re.MULTILINE)[1])
    assert "assets/js/ui/bag.js" in scripts and "assets/js/check/bagged.js" in scripts


def test_the_navigation_and_the_styles_have_both():
    config = yaml.load((ROOT / "mkdocs.yml").read_text(), yaml.BaseLoader)
    assert {"Bench": "bench.md"} in config["nav"] and {"Bag": "bag.md"} in config["nav"]
    assert {"assets/css/bench.css", "assets/css/bag.css"} <= set(config["extra_css"])
    assert all((ROOT / "site_src" / path).is_file() for path in config["extra_css"] if "bench" in path or "bag" in path)
