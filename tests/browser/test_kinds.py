"""The kinds of page that the other tests walk are all there are."""

from kinds import FRAMES, KINDS, page_of, shape


def test_no_page_is_of_a_kind_that_is_not_walked(site, catalogue):
    walked = {shape(page_of(kind, catalogue)) for kind in (*KINDS, *FRAMES)}
    built = {shape(path.relative_to(site.folder).as_posix()) for path in site.folder.rglob("*.html")}
    assert built == walked


def test_each_kind_is_a_page_of_the_site(site, catalogue):
    places = {kind: page_of(kind, catalogue).partition("#")[0] for kind in (*KINDS, *FRAMES)}
    assert [
        kind
        for kind, place in places.items()
        if not (site.folder / place / ("" if place.endswith(".html") else "index.html")).is_file()
    ] == []
