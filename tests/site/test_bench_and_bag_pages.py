"""The pages of the bench and the bag: in the tree, in the navigation, with their scripts
after what these need."""

import json
import re

import pytest
import yaml
from front import SCRIPTS

from generator.site import bundles
from generator.site.bundles import scripts_of

ROOT = SCRIPTS.parents[2]


@pytest.mark.parametrize("name, more", [("bench", ()), ("bag", ("called", "asks", "own", "kit"))])
def test_the_page_is_built_and_loads_its_scripts_last(tree, name, more):
    page = tree[f"{name}.md"].decode()
    assert f'id="rf-{name}"' in page and 'data-root="../"' in page and 'id="rf-status"' in page
    scripts = json.loads(re.search(r"^scripts: (\[.*\])$", page, re.MULTILINE)[1])
    assert scripts == scripts_of("data", "circuits", "table", "engine", "ui", "check", "ways", *more, name)
    assert set(scripts) <= set(tree)


@pytest.mark.parametrize("name", ["bench", "bag"])
def test_without_scripts_the_page_says_where_the_answers_stand(tree, name):
    assert f"The {name} needs scripts, and they are not running." in tree[f"{name}.md"].decode()


def test_the_check_knows_of_the_bag(tree):
    scripts = json.loads(re.search(r"^scripts: (\[.*\])$", tree["check.md"].decode(), re.MULTILINE)[1])
    code = b"".join(tree[path] for path in scripts)
    assert all(re.search(rb"\b(?:const|function) %s\b" % name, code) for name in (b"bagOnly", b"bagged"))


def test_the_navigation_and_the_styles_have_both(tree):
    config = yaml.load((ROOT / "mkdocs.yml").read_text(), yaml.BaseLoader)
    assert {"Bench": "bench.md"} in config["nav"] and {"My kit": "bag.md"} in config["nav"]
    assert (
        config["extra_css"] == [bundles.SITE]
        and b".rf-bench" in tree[bundles.TOOLS]
        and b".rf-bag" in tree[bundles.TOOLS]
    )
