"""A lesson or a set of questions as a SCORM 1.2 package: a manifest and one page that tells the system how
far one got and the score.

Written from the SCORM 1.2 Content Aggregation Model (manifest) and Run-Time Environment (the calls in
scorm.js). Outside such a system the page works as well and keeps nothing.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from html import escape
from pathlib import Path
from xml.etree import ElementTree as xml

from generator.catalogue.records import Catalogue
from generator.lessons.pictures import pictured
from generator.lessons.question import Question

from .archive import archive

CP, ADL = "http://www.imsproject.org/xsd/imscp_rootv1p1p2", "http://www.adlnet.org/xsd/adlcp_rootv1p2"
SCHEMA = "http://www.w3.org/2001/XMLSchema-instance"
WHERE = f"{CP} imscp_rootv1p1p2.xsd {ADL} adlcp_rootv1p2.xsd"
MASTERY = "80"  # of 100; a system may set its own
SCRIPT = Path(__file__).with_name("scorm.js")


def package(
    catalogue: Catalogue, id: str, title: str, texts: Sequence[str], questions: Sequence[Question]
) -> bytes:
    """The package as a zip. `texts` are plain sentences said before the questions."""
    return archive(files(catalogue, id, title, texts, questions))


def files(
    catalogue: Catalogue, id: str, title: str, texts: Sequence[str], questions: Sequence[Question]
) -> dict[str, bytes]:
    """What is in the package: path -> content, the manifest first."""
    drawn = {
        f"drawings/{name}.svg": svg.encode()
        for one in questions
        for name, svg in pictured(catalogue, one).items()
    }
    data = json.dumps(
        [one.as_data() for one in questions], ensure_ascii=False, separators=(",", ":")
    ).replace("</", "<\\/")
    own = {
        "index.html": _page(title, texts).encode(),
        "scorm.js": SCRIPT.read_bytes(),
        "questions.js": f"window.questions = {data};\n".encode(),
        **drawn,
    }
    return {"imsmanifest.xml": _manifest(id, title, sorted(own)), **own}


def _manifest(id: str, title: str, paths: Sequence[str]) -> bytes:
    made = xml.Element(
        "manifest",
        {
            "xmlns": CP,
            "xmlns:adlcp": ADL,
            "xmlns:xsi": SCHEMA,
            "xsi:schemaLocation": WHERE,
            "identifier": f"ringfence-{id}",
            "version": "1.0",
        },
    )
    about = xml.SubElement(made, "metadata")
    xml.SubElement(about, "schema").text = "ADL SCORM"
    xml.SubElement(about, "schemaversion").text = "1.2"
    organization = xml.SubElement(
        xml.SubElement(made, "organizations", {"default": "lesson"}), "organization", {"identifier": "lesson"}
    )
    xml.SubElement(organization, "title").text = title
    item = xml.SubElement(
        organization, "item", {"identifier": "item-1", "identifierref": "page", "isvisible": "true"}
    )
    xml.SubElement(item, "title").text = title
    xml.SubElement(item, "adlcp:masteryscore").text = MASTERY
    resource = xml.SubElement(
        xml.SubElement(made, "resources"),
        "resource",
        {"identifier": "page", "type": "webcontent", "adlcp:scormtype": "sco", "href": "index.html"},
    )
    for path in paths:
        xml.SubElement(resource, "file", {"href": path})
    xml.indent(made)
    return b'<?xml version="1.0" encoding="UTF-8"?>\n' + xml.tostring(made, encoding="utf-8") + b"\n"


def _page(title: str, texts: Sequence[str]) -> str:
    said = "".join(f"<p>{escape(text)}</p>" for text in texts)
    return (
        "<!doctype html>\n"
        '<html lang="en"><head><meta charset="utf-8"><meta name="viewport" '
        f'content="width=device-width"><title>{escape(title)}</title>'
        "<style>body { font: 1.1rem/1.5 system-ui, sans-serif; max-width: 42rem; margin: 1rem auto; padding: "
        "0 1rem } button { font: inherit; display: block; width: 100%; text-align: left; margin: .4rem 0; "
        "padding: .7rem; min-height: 44px } img { max-width: 100%; max-height: 20rem }</style></head>\n"
        f'<body><h1>{escape(title)}</h1>{said}<main id="asked" aria-live="polite"></main><script '
        'src="questions.js"></script><script src="scorm.js"></script></body></html>\n'
    )
