"""Links of the downloaded folder name the file a folder would have answered with; all other
links stay as they are."""

import pytest

from generator.site.folder import named


@pytest.mark.parametrize(
    "link, becomes",
    [
        ("ports/a/", "ports/a/index.html"),
        ("../../", "../../index.html"),
        ("..", "../index.html"),
        ("../..", "../../index.html"),
        (".", "./index.html"),
        ("./", "./index.html"),
        ("../check/#from=a&amp;through=b&amp;into=c", "../check/index.html#from=a&amp;through=b&amp;into=c"),
        ("../sources/#x", "../sources/index.html#x"),
        ("#top", "#top"),
        ("../draw/a.svg", "../draw/a.svg"),
        ("https://example.org/a/", "https://example.org/a/"),
        ("mailto:a@example.org", "mailto:a@example.org"),
        ("//example.org/a/", "//example.org/a/"),
        ("index.html", "index.html"),
    ],
)
def test_links(link, becomes):
    assert named(f'<a class="x" href="{link}">y</a>') == f'<a class="x" href="{becomes}">y</a>'


def test_only_links_a_person_follows():
    assert named('<link href="../../"><img src="../a/">') == '<link href="../../"><img src="../a/">'
