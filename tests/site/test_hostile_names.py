"""A catalogue full of hostile names: its drawings, frames and codes say them, and run nothing."""

import re
import xml.etree.ElementTree as ET
from dataclasses import fields, is_dataclass, replace

from html_reader import read

from generator.site.drawings import Drawings

HOSTILE = (
    "</title></desc></svg><script>alert(1)</script>\"><img src=x onerror=alert(1)>'{{ 7*7 }}]]>&lt;b&gt;"
)
# what people read
TEXTS = {
    "name",
    "also_called",
    "used_for",
    "mistaken_for",
    "carries",
    "recognise",
    "cautions",
    "tell_apart",
    "note",
    "where",
}
DRAWN = {
    "svg",
    "title",
    "desc",
    "g",
    "rect",
    "circle",
    "line",
    "path",
    "text",
    "tspan",
    "style",
    "use",
    "defs",
}


def worded(value, texts=False):
    """A record with a hostile end to everything people read of it."""
    if isinstance(value, str):
        return value + HOSTILE if texts and value else value
    if isinstance(value, tuple) and not hasattr(value, "_fields"):
        return tuple(worded(one, texts) for one in value)
    if is_dataclass(value):
        return replace(
            value,
            **{
                one.name: worded(getattr(value, one.name), one.name in TEXTS)
                for one in fields(value)
                if one.init and (one.name in TEXTS or is_dataclass(getattr(value, one.name)))
            },
        )
    return value


def test_every_drawing_of_hostile_names_is_a_drawing(catalogue):
    hostile = replace(
        catalogue,
        **{
            kind: {id: worded(record) for id, record in getattr(catalogue, kind).items()}
            for kind in ("connectors", "assignments", "ports", "leads")
        },
    )
    drawn, said = Drawings(hostile).files(), 0
    for path, content in drawn.items():
        root = ET.fromstring(content)
        for element in root.iter():
            assert element.tag.rpartition("}")[2] in DRAWN, f"{path}: {element.tag}"
            for name, text in element.attrib.items():
                assert not name.lower().startswith("on") and (
                    not name.endswith("href") or text.startswith("#")
                ), f"{path}: {name}={text}"
            if element.tag.endswith("style"):
                assert "script" not in element.text and "url" not in element.text
        said += "alert(1)" in "".join(root.itertext())
    assert said > len(catalogue.ports) + len(catalogue.leads), "the names were said, as text"


def test_frames_and_codes_of_hostile_names_hold_no_script_of_theirs(altered):
    frames = [path for path in altered if path.startswith("embed/") and path.endswith(".html")]
    assert len(frames) > 100
    for path in frames:
        for tag, attributes in read(altered[path].decode()):
            assert tag not in {"iframe", "object", "embed", "base"} and not any(
                name.startswith("on") for name in attributes
            ), path
            assert tag != "script" or re.fullmatch(
                r"(?:\.\./)+assets/js/[\w-]+\.js", attributes.get("src", "")
            ), f"{path}: {attributes}"
    for path in (path for path in altered if path.startswith("qr/")):
        assert (
            b"script" not in altered[path]
            and {one.tag.rpartition("}")[2] for one in ET.fromstring(altered[path]).iter()} <= DRAWN
        ), path
