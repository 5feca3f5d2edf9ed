"""Questions as a QTI 2.1 content package: a manifest, one test, one item a question, its drawings beside it.

Written from the open specification (IMS Question & Test Interoperability 2.1: Assessment Test, Section and
Item Information Model). Items carry response processing of their own, so that nothing depends on a
template a system may not know.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from hashlib import sha256
from xml.etree import ElementTree as xml

from generator.catalogue.records import Catalogue
from generator.lessons.pictures import pictured
from generator.lessons.question import Question

from .archive import archive

QTI = "http://www.imsglobal.org/xsd/imsqti_v2p1"
CP = "http://www.imsglobal.org/xsd/imscp_v1p1"
SCHEMA = "http://www.w3.org/2001/XMLSchema-instance"
WHERE = f"{QTI} http://www.imsglobal.org/xsd/qti/qtiv2p1/imsqti_v2p1.xsd"
ITEM, TEST = "imsqti_item_xmlv2p1", "imsqti_test_xmlv2p1"
CARDINALITY = {"choice": "single", "tap": "single", "order": "ordered", "number": "single"}


def package(catalogue: Catalogue, questions: Sequence[Question], title: str) -> bytes:
    """The package as a zip."""
    return archive(files(catalogue, questions, title))


def files(catalogue: Catalogue, questions: Sequence[Question], title: str) -> dict[str, bytes]:
    """What is in the package: path -> content, the manifest first."""
    drawn: dict[str, bytes] = {}
    items = {}
    for one in questions:
        pictures = pictured(catalogue, one)
        drawn |= {
            f"drawings/{name}.svg": svg.encode() for name, svg in pictures.items() if name in one.pictures
        }
        items[f"items/{identifier(one)}.xml"] = _bytes(item(one))
    return {
        "imsmanifest.xml": _bytes(_manifest(questions, title)),
        "test.xml": _bytes(_test(questions, title)),
        **items,
        **drawn,
    }


def identifier(one: Question) -> str:
    """A name of letters, digits and hyphens for a question: its kind and a digest of its address."""
    return f"{one.kind}-{sha256(one.id.encode()).hexdigest()[:12]}"


def item(one: Question) -> xml.Element:
    """One assessment item."""
    made = xml.Element(
        "assessmentItem",
        {
            "xmlns": QTI,
            "xmlns:xsi": SCHEMA,
            "xsi:schemaLocation": WHERE,
            "identifier": identifier(one),
            "title": one.asks,
            "adaptive": "false",
            "timeDependent": "false",
            "toolName": "Ringfence",
        },
    )
    declared = _sub(
        made,
        "responseDeclaration",
        identifier="RESPONSE",
        cardinality=CARDINALITY[one.form],
        baseType="float" if one.target else "identifier",
    )
    right = _sub(declared, "correctResponse")
    for answer in [f"{one.target.value:g}"] if one.target else map(_choice, _places(one)):
        _sub(right, "value").text = answer
    score = _sub(made, "outcomeDeclaration", identifier="SCORE", cardinality="single", baseType="float")
    _sub(_sub(score, "defaultValue"), "value").text = "0"
    _sub(made, "outcomeDeclaration", identifier="FEEDBACK", cardinality="single", baseType="identifier")
    body = _sub(made, "itemBody")
    for name, value in one.given:
        _sub(body, "p").text = f"{name}: {value}"
    for name in one.pictures:
        _sub(_sub(body, "p"), "img", src=f"../drawings/{name}.svg", alt=_described(one))
    _interaction(body, one)
    _processing(made, one)
    said = _sub(made, "modalFeedback", outcomeIdentifier="FEEDBACK", identifier="WORKING", showHide="show")
    _sub(said, "p").text = " ".join(filter(None, (one.because, one.note, f"Evidence: {one.evidence}.")))
    return made


def _places(one: Question) -> list[int]:
    """Where each part of the answer stands among the choices."""
    ids = [choice.id for choice in one.choices]
    return [ids.index(answer) for answer in one.answer]


def _choice(place: int) -> str:
    return f"C{place + 1}"


def _described(one: Question) -> str:
    return "; ".join(f"{name}: {value}" for name, value in one.given) or "The drawing the question is about"


def _interaction(body: xml.Element, one: Question) -> None:
    if one.target:
        line = _sub(body, "p")
        line.text = f"{one.asks} In {one.target.unit}: "
        _sub(line, "textEntryInteraction", responseIdentifier="RESPONSE", expectedLength="8")
        return
    name, part = (
        ("orderInteraction", "simpleChoice") if one.form == "order" else ("choiceInteraction", "simpleChoice")
    )
    more = {} if one.form == "order" else {"maxChoices": "1"}
    asked = _sub(body, name, responseIdentifier="RESPONSE", shuffle="true", **more)
    _sub(asked, "prompt").text = one.asks
    for place, choice in enumerate(one.choices):
        _sub(asked, part, identifier=_choice(place)).text = choice.text


def _processing(made: xml.Element, one: Question) -> None:
    """1 where the answer is right or close enough, 0 elsewhere; the working is shown either way."""
    processing = _sub(made, "responseProcessing")
    if_ = _sub(_sub(processing, "responseCondition"), "responseIf")
    if one.target:
        same = _sub(
            if_, "equal", toleranceMode="absolute", tolerance=f"{one.target.near:g} {one.target.near:g}"
        )
    else:
        same = _sub(if_, "match")
    _sub(same, "variable", identifier="RESPONSE")
    _sub(same, "correct", identifier="RESPONSE")
    _sub(_sub(if_, "setOutcomeValue", identifier="SCORE"), "baseValue", baseType="float").text = "1"
    _sub(
        _sub(processing, "setOutcomeValue", identifier="FEEDBACK"), "baseValue", baseType="identifier"
    ).text = "WORKING"


def _test(questions: Sequence[Question], title: str) -> xml.Element:
    made = xml.Element(
        "assessmentTest",
        {
            "xmlns": QTI,
            "xmlns:xsi": SCHEMA,
            "xsi:schemaLocation": WHERE,
            "identifier": "ringfence-test",
            "title": title,
        },
    )
    part = _sub(
        made, "testPart", identifier="part-1", navigationMode="nonlinear", submissionMode="individual"
    )
    section = _sub(part, "assessmentSection", identifier="section-1", title=title, visible="true")
    for one in questions:
        _sub(section, "assessmentItemRef", identifier=identifier(one), href=f"items/{identifier(one)}.xml")
    return made


def _manifest(questions: Sequence[Question], title: str) -> xml.Element:
    made = xml.Element(
        "manifest", {"xmlns": CP, "identifier": f"ringfence-{re.sub('[^a-z0-9]+', '-', title.lower())}"}
    )
    about = _sub(made, "metadata")
    _sub(about, "schema").text = "QTIv2.1 Package"
    _sub(about, "schemaversion").text = "1.0.0"
    _sub(made, "organizations")
    resources = _sub(made, "resources")
    test = _sub(resources, "resource", identifier="test", type=TEST, href="test.xml")
    _sub(test, "file", href="test.xml")
    for one in questions:
        path = f"items/{identifier(one)}.xml"
        _sub(test, "dependency", identifierref=identifier(one))
        held = _sub(resources, "resource", identifier=identifier(one), type=ITEM, href=path)
        for file in (path, *(f"drawings/{name}.svg" for name in one.pictures)):
            _sub(held, "file", href=file)
    return made


def _sub(parent: xml.Element, tag: str, **attributes: str) -> xml.Element:
    return xml.SubElement(parent, tag, attributes)


def _bytes(root: xml.Element) -> bytes:
    xml.indent(root)
    return b'<?xml version="1.0" encoding="UTF-8"?>\n' + xml.tostring(root, encoding="utf-8") + b"\n"
