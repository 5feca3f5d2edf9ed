"""What the site says it keeps is what its scripts keep."""

import re

from front import SCRIPTS
from html_reader import read

# every name of ours for something kept; a script that keeps under another is caught below
KEY = re.compile(r"""["'`](ringfence[.-][a-z.-]*)["'`]""")
KEEPS = re.compile(r"(?:localStorage|sessionStorage)\.setItem\((\w+|[\"'`][^\"'`]*)")


def kept():
    """Every name under which a script or the service worker keeps something."""
    sources = [*SCRIPTS.rglob("*.js"), SCRIPTS.parents[1] / "offline/sw.js"]
    return {name for path in sources for name in KEY.findall(path.read_text())}


def test_the_page_names_all_that_is_kept(tree):
    page = tree["safety.md"].decode()
    assert {attributes["data-key"] for _, attributes in read(page) if "data-key" in attributes} == kept()


def test_scripts_keep_under_names_that_are_written_out():
    for path in SCRIPTS.rglob("*.js"):
        text = path.read_text()
        names = KEEPS.findall(text)
        assert not names or KEY.search(text), f"{path.name} keeps something under a name of another script"
        assert not [name for name in names if name[0] in "\"'`" and not name[1:].startswith("ringfence")], (
            path.name
        )
        assert not re.search(r"indexedDB|document\.cookie", text), path.name
