"""One page of every kind, and the states of it a person meets. Of the records' pages the hardest:
that with the longest name.

`shape` tells which built pages are of one kind; `test_kinds.py` holds that the built site has no page of
a kind that is not here.
"""

from __future__ import annotations

from answers import CHAINS, address

from generator.catalogue import Catalogue

MIC, CAMERA, LEAD = "mic-dynamic-xlr", "camera-mic-in-35", "xlr-f-to-xlr-m-3m"
ADAPTER = "ends=xlr-3/female,phone-35-trs/plug"
OWN = "main.highest-volts-at-output:63_V"
WIRED = f"bench/#{ADAPTER}&joins=a.1_b.sleeve,a.2_b.tip"

PLAIN = {
    "front": "",
    "more": "more/",
    "404": "404.html",
    "check": "check/",
    "choosing a lead": f"check/#from={MIC}",
    "ways": f"check/#from={MIC}&into={CAMERA}",
    "answer": address(*CHAINS["dangerous"]),
    "answer that loses": address(*CHAINS["lossy"]),
    "not found": "check/#from=no-such-port",
    "by an own number": f"{address('mic-electret-battery-xlr', (LEAD,), CHAINS['safe'][2])}&own=from.{OWN}",
    "adapter": "adapter/",
    "adapter judged": f"adapter/#{ADAPTER}&from={MIC}&into={CAMERA}",
    "bench": "bench/",
    "wired": WIRED,
    "matrix": "matrix/",
    "recognise": "recognise/",
    "recognise narrowed": "recognise/#shape=rod",
    "true size": "plugs/",
    "bag": "bag/",
    "bag handed on": f"bag/#leads={LEAD}&ports={MIC}.{CHAINS['safe'][2]}",
    "mine": "mine/",
    "device handed on": f"mine/#v=1&device=mic-electret-battery-xlr~My mic~{OWN}",
    "cards": "cards/",
    "cards chosen": f"cards/#connectors=xlr-3&leads={LEAD}&paper=a4",
    "run": "run/",
    "run that hums": "run/#from=player-line-out-rca,earthed&into=mixer-line-in-635-ts,earthed&lead=coax-thin,10",
    "worked runs": "runs/",
    "workshop": "workshop/",
    "find it in a run": "workshop/trace/",
    "pads": "workshop/pads/",
    "upkeep": "workshop/upkeep/",
    "connectors": "connectors/",
    "assignments": "assignments/",
    "ports": "ports/",
    "leads": "leads/",
    "class": "class/",
    "practice": "class/practice/#ask=contact:xlr-3-balanced,2",
    "lesson": "class/lesson/#lesson=02-xlr&at=6",
    "making a lesson": "class/make/#lesson=01-bands",
    "test": "class/test/",
    "test sat": "class/test/#test=word&kinds=&level=&n=5",
    "handout": "class/lessons/02-xlr/",
    "guides": "guides/",
    "guide": "guides/meter/",
    "glossary": "guides/glossary/",
    "methods": "methods/",
    "sources": "sources/",
    "coverage": "coverage/",
    "changes": "changes/",
    "safety": "safety/",
}
FRAMES = {
    "framed connector": "embed/connectors/xlr-3/",
    "framed assignment": "embed/assignments/xlr-3-balanced/",
    "framed port": f"embed/ports/{MIC}/",
    "framed lead": f"embed/leads/{LEAD}/",
    "framed check": f"embed/{address(*CHAINS['dangerous'])}",
    "framed question": "embed/questions/contact/xlr-3-balanced,2/",
}
RECORDS = {"connector": "connectors", "assignment": "assignments", "port": "ports", "lead": "leads"}
KINDS = [*PLAIN, *RECORDS, "workshop lead"]
# folders whose pages are of one kind
MANY = {
    *RECORDS.values(),
    "workshop",
    "class/lessons",
    "guides",
    *(f"embed/{kind}" for kind in RECORDS.values()),
}
APART = {"workshop/trace", "workshop/pads", "workshop/upkeep", "guides/glossary"}  # but these


def page_of(kind: str, catalogue: Catalogue) -> str:
    """The address of the page of a kind."""
    if kind in PLAIN | FRAMES:
        return (PLAIN | FRAMES)[kind]
    folder = RECORDS.get(kind, "leads")
    longest = max(getattr(catalogue, folder).values(), key=lambda record: len(record.name)).id
    return f"workshop/{longest}/" if kind == "workshop lead" else f"{folder}/{longest}/"


def shape(page: str) -> str:
    """What the pages of one kind have in common: their address, with a star where a record, a
    lesson or a guide is named."""
    place = page.partition("#")[0].removesuffix("index.html").strip("/")
    folder = place.rpartition("/")[0]
    if place.startswith("embed/questions/"):
        return "embed/questions/*"
    return f"{folder}/*" if folder in MANY and place not in APART else place
