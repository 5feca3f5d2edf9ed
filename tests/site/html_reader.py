"""The elements of a page, as a browser's parser would find them."""

from html.parser import HTMLParser


class _Reader(HTMLParser):
    def __init__(self):
        super().__init__()
        self.found = []

    def handle_starttag(self, tag, attributes):
        self.found.append((tag, {name.lower(): value or "" for name, value in attributes}))


def read(html: str) -> list[tuple[str, dict[str, str]]]:
    """(tag, attributes) of every element, in order."""
    reader = _Reader()
    reader.feed(html)
    return reader.found
