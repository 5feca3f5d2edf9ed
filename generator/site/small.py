"""Scripts and styles without what only readers of the source need: comments, indents, blanks around signs.

Nothing is renamed, reordered or worked out beforehand, so that what runs is what was written, and what was
tested: a parser says what is a comment and what is text. Licences (`/*!`) stay.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

import rcssmin
import tree_sitter_javascript
from tree_sitter import Language, Node, Parser

JAVASCRIPT = Language(tree_sitter_javascript.language())
TEXTS = {"string", "template_string", "regex"}  # a blank in them means something
BLANKS = re.compile(rb"[ \t]+")
INDENT = re.compile(rb" ?\n\s*")  # a line's end stays: it may be what ends a statement
# beside others a blank can keep two signs apart: a - -b, a / /b/
SIGNS = re.compile(rb" ?([{}()\[\],;:?=>*&|]) ?")


def small(assets: Mapping[str, bytes]) -> dict[str, bytes]:
    """The files (path -> content), their scripts and styles made small. Raises ValueError for a
    script that does not parse."""
    return {
        path: _script(path, content)
        if path.endswith(".js")
        else _style(content)
        if path.endswith(".css")
        else content
        for path, content in assets.items()
    }


def _style(content: bytes) -> bytes:
    return rcssmin.cssmin(content.decode(), keep_bang_comments=True).encode() + b"\n"


def _script(path: str, content: bytes) -> bytes:
    root = Parser(JAVASCRIPT).parse(content).root_node
    if root.has_error:
        raise ValueError(f"{path} is not JavaScript.")
    made, at = [], 0
    for node in _apart(root):
        made.append(_tight(content[at : node.start_byte]))
        text = content[node.start_byte : node.end_byte]
        if node.type in TEXTS or text.startswith(b"/*!"):
            made.append(text)
        at = node.end_byte
    return b"".join((*made, _tight(content[at:]))).strip() + b"\n"


def _apart(node: Node) -> Iterator[Node]:
    """Comments and texts, in their order."""
    if node.type in TEXTS or node.type == "comment":
        yield node
    else:
        for child in node.children:
            yield from _apart(child)


def _tight(code: bytes) -> bytes:
    return SIGNS.sub(rb"\1", INDENT.sub(b"\n", BLANKS.sub(b" ", code)))
