"""Rules of QTI 2.1 and SCORM 1.2 packages as their specifications tell them, checked without the
schemas: those may not be passed on freely, so none comes with this. Each function gives the
faults it finds, a line each.

QTI 2.1: Assessment Test, Section and Item Information Model, sections on assessmentItem, declarations,
interactions, response processing; Integration Guide, on packages. SCORM 1.2: Content Aggregation Model,
section 2.3 (manifest), 2.3.5 (metadata, organizations, resources).
"""

from __future__ import annotations

import re
from io import BytesIO
from xml.etree import ElementTree as xml
from zipfile import ZipFile

QTI, CP = "{http://www.imsglobal.org/xsd/imsqti_v2p1}", "{http://www.imsglobal.org/xsd/imscp_v1p1}"
OLD, ADL = "{http://www.imsproject.org/xsd/imscp_rootv1p1p2}", "{http://www.adlnet.org/xsd/adlcp_rootv1p2}"
ORDER = [
    "responseDeclaration",
    "outcomeDeclaration",
    "templateDeclaration",
    "templateProcessing",
    "stylesheet",
    "itemBody",
    "responseProcessing",
    "modalFeedback",
]
NAME = re.compile(r"[A-Za-z_][\w.-]*")
BLOCKS = {"p", "div", "choiceInteraction", "orderInteraction"}
NEEDED = {
    "assessmentItem": {"identifier", "title", "adaptive", "timeDependent"},
    "responseDeclaration": {"identifier", "cardinality"},
    "outcomeDeclaration": {"identifier", "cardinality"},
    "choiceInteraction": {"responseIdentifier", "shuffle", "maxChoices"},
    "orderInteraction": {"responseIdentifier", "shuffle"},
    "textEntryInteraction": {"responseIdentifier"},
    "simpleChoice": {"identifier"},
    "setOutcomeValue": {"identifier"},
    "baseValue": {"baseType"},
    "variable": {"identifier"},
    "correct": {"identifier"},
    "equal": {"toleranceMode"},
    "modalFeedback": {"outcomeIdentifier", "identifier", "showHide"},
    "img": {"src", "alt"},
}
OPTIONAL = {
    "toolName",
    "baseType",
    "expectedLength",
    "tolerance",
    "{http://www.w3.org/2001/XMLSchema-instance}schemaLocation",
}


def unzipped(package: bytes) -> dict[str, bytes]:
    with ZipFile(BytesIO(package)) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


def item_faults(content: bytes) -> list[str]:
    item = xml.fromstring(content)
    faults = [] if item.tag == f"{QTI}assessmentItem" else [f"no item but {item.tag}"]
    children = [child.tag.removeprefix(QTI) for child in item]
    faults += [f"no such element in an item: {tag}" for tag in children if tag not in ORDER]
    places = [ORDER.index(tag) for tag in children if tag in ORDER]
    faults += [] if places == sorted(places) else [f"out of order: {children}"]
    for element in item.iter():
        tag = element.tag.removeprefix(QTI)
        if tag in NEEDED:
            faults += [f"{tag} lacks {name}" for name in sorted(NEEDED[tag] - set(element.keys()))]
            faults += [
                f"{tag} has no {name}" for name in sorted(set(element.keys()) - NEEDED[tag] - OPTIONAL)
            ]
    declared = {one.get("identifier"): one for one in item.findall(f"{QTI}responseDeclaration")}
    outcomes = {one.get("identifier") for one in item.findall(f"{QTI}outcomeDeclaration")}
    body = item.find(f"{QTI}itemBody")
    faults += [
        f"{child.tag} stands bare in the body" for child in body if child.tag.removeprefix(QTI) not in BLOCKS
    ]
    interactions = [one for one in body.iter() if one.get("responseIdentifier")]
    faults += [] if len(interactions) == 1 else [f"{len(interactions)} interactions"]
    for one in interactions:
        faults += _interaction_faults(one, declared)
    for tag, known in (("variable", declared), ("correct", declared), ("setOutcomeValue", outcomes)):
        faults += [
            f"{tag} of an unknown {one.get('identifier')}"
            for one in item.iter(f"{QTI}{tag}")
            if one.get("identifier") not in known
        ]
    names = [one.get("identifier") for one in item.iter(f"{QTI}simpleChoice")]
    faults += [] if len(set(names)) == len(names) else ["two choices of one name"]
    faults += [
        f"no name: {name}" for name in (item.get("identifier"), *names) if not NAME.fullmatch(name or "")
    ]
    return faults


def _interaction_faults(one: xml.Element, declared: dict[str, xml.Element]) -> list[str]:
    response = declared.get(one.get("responseIdentifier"))
    if response is None:
        return ["an interaction without a declared response"]
    right = [value.text for value in response.findall(f"{QTI}correctResponse/{QTI}value")]
    choices = [choice.get("identifier") for choice in one.findall(f"{QTI}simpleChoice")]
    kind, needs = (
        one.tag.removeprefix(QTI),
        {
            "choiceInteraction": ("single", "identifier"),
            "orderInteraction": ("ordered", "identifier"),
            "textEntryInteraction": ("single", "float"),
        },
    )
    faults = (
        []
        if (response.get("cardinality"), response.get("baseType")) == needs[kind]
        else [f"{kind} with {response.attrib}"]
    )
    if kind == "choiceInteraction" and (len(right) != 1 or right[0] not in choices):
        faults.append(f"right is {right}, choices are {choices}")
    if kind == "orderInteraction" and sorted(right) != sorted(choices):
        faults.append(f"an order of {right}, choices are {choices}")
    if kind == "textEntryInteraction" and not re.fullmatch(r"-?\d+(\.\d+)?(e[+-]?\d+)?", right[0]):
        faults.append(f"no number: {right}")
    prompt = one.find(f"{QTI}prompt")
    return faults + (["the prompt is not first"] if prompt is not None and one[0] is not prompt else [])


def qti_faults(files: dict[str, bytes]) -> list[str]:
    """A whole QTI package, unzipped."""
    manifest = xml.fromstring(files["imsmanifest.xml"])
    faults = (
        []
        if manifest.tag == f"{CP}manifest" and next(iter(files)) == "imsmanifest.xml"
        else ["the manifest is not first, or none"]
    )
    resources = manifest.findall(f"{CP}resources/{CP}resource")
    faults += _resource_faults(
        files, resources, CP, {"test.xml", *(path for path in files if path.startswith("items/"))}
    )
    known = {one.get("identifier") for one in resources}
    faults += [
        f"depends on an unknown {one.get('identifierref')}"
        for one in manifest.iter(f"{CP}dependency")
        if one.get("identifierref") not in known
    ]
    faults += [
        f"resource of type {one.get('type')}"
        for one in resources
        if one.get("type") not in ("imsqti_item_xmlv2p1", "imsqti_test_xmlv2p1")
    ]
    test = xml.fromstring(files["test.xml"])
    parts = [child.tag.removeprefix(QTI) for child in test.iter()]
    faults += (
        [] if parts[:3] == ["assessmentTest", "testPart", "assessmentSection"] else [f"a test of {parts[:3]}"]
    )
    faults += [
        f"no file {one.get('href')}"
        for one in test.iter(f"{QTI}assessmentItemRef")
        if one.get("href") not in files
    ]
    for path, content in files.items():
        if path.startswith("items/"):
            faults += [f"{path}: {fault}" for fault in item_faults(content)]
            faults += [
                f"{path}: no drawing {one.get('src')}"
                for one in xml.fromstring(content).iter(f"{QTI}img")
                if one.get("src").removeprefix("../") not in files
            ]
    return faults


def scorm_faults(files: dict[str, bytes]) -> list[str]:
    """A whole SCORM 1.2 package, unzipped."""
    manifest = xml.fromstring(files["imsmanifest.xml"])
    faults = (
        []
        if manifest.tag == f"{OLD}manifest"
        and manifest.get("identifier")
        and next(iter(files)) == "imsmanifest.xml"
        else ["the manifest is not first, or none"]
    )
    told = [manifest.findtext(f"{OLD}metadata/{OLD}{name}") for name in ("schema", "schemaversion")]
    faults += [] if told == ["ADL SCORM", "1.2"] else [f"metadata {told}"]
    faults += (
        []
        if [child.tag for child in manifest] == [f"{OLD}metadata", f"{OLD}organizations", f"{OLD}resources"]
        else ["out of order"]
    )
    organizations = manifest.find(f"{OLD}organizations")
    named = [one.get("identifier") for one in organizations]
    faults += [] if organizations.get("default") in named else [f"the default is none of {named}"]
    resources = manifest.findall(f"{OLD}resources/{OLD}resource")
    known = {one.get("identifier"): one for one in resources}
    for item in manifest.iter(f"{OLD}item"):
        faults += (
            []
            if item.get("identifierref") in known and item.findtext(f"{OLD}title")
            else ["an item without a title or a resource"]
        )
        score = item.findtext(f"{ADL}masteryscore")
        faults += (
            [] if score is None or score.isdigit() and 0 <= int(score) <= 100 else [f"masteryscore {score}"]
        )
    faults += [
        f"scormtype {one.get(f'{ADL}scormtype')}"
        for one in resources
        if one.get(f"{ADL}scormtype") not in ("sco", "asset") or one.get("type") != "webcontent"
    ]
    return faults + _resource_faults(files, resources, OLD, set(files) - {"imsmanifest.xml"})


def _resource_faults(
    files: dict[str, bytes], resources: list[xml.Element], space: str, needed: set[str]
) -> list[str]:
    listed = {file.get("href") for one in resources for file in one.findall(f"{space}file")}
    faults = [f"listed and not there: {path}" for path in sorted(listed - set(files))] + [
        f"there and not listed: {path}"
        for path in sorted((needed | set(files)) - listed - {"imsmanifest.xml"})
    ]
    return faults + [
        f"{one.get('href')} is not among its own files"
        for one in resources
        if one.get("href") not in [file.get("href") for file in one.findall(f"{space}file")]
    ]
