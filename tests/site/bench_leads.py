"""Leads on the bench, for its scripts run by node."""

import json

from front import run, scripts

from generator.catalogue.published import as_data
from generator.engine.tables import tables
from generator.site import mated
from generator.site.data import table

LOADED = scripts(
    "ui/dom.js",
    "ui/words.js",
    "ui/quantity.js",
    "ui/catalogue.js",
    "ui/table.js",
    "ui/fits.js",
    "engine",
    "ui/editions.js",
    "ui/own.js",
    "check/numbers.js",
    "check/judged.js",
    *(
        f"bench/{name}.js"
        for name in (
            "address",
            "components",
            "drawing",
            "known",
            "lay",
            "layout",
            "lead",
            "nets",
            "stock",
            "verdicts",
            "wiring",
            "yaml",
        )
    ),
)


def in_node(catalogue, tmp_path_factory):
    """A function that runs an expression on the real catalogue."""
    data = tmp_path_factory.mktemp("bench") / "data.json"
    data.write_text(
        json.dumps(
            {"data": as_data(catalogue), "mated": mated.table(catalogue), "table": table([]), **tables()}
        )
    )
    return lambda expression: run(expression, LOADED, data)


def plain(value):
    """As JSON would carry it."""
    return json.loads(json.dumps(value))


WIRINGS = [
    "#ends=xlr-3/female,phone-635-ts/plug&joins=a.1_a.3_b.sleeve,a.2_b.tip",
    "#ends=xlr-3/female,xlr-3/male&joins=a.1_b.1,a.2_b.2,a.3_b.3&cable=mic-pair&length=3m",
    "#ends=xlr-3/female,xlr-3/male&joins=a.1,a.2_b.2,a.3_b.3&cable=mic-pair&length=3m&screen=a.1",
    "#ends=xlr-3/female,xlr-3/male&joins=a.1_b.1&parts=resistor:a.2_b.2:680ohm@0.25W,capacitor:a.3_p:10uF@63V,resistor:p_b.3:1kohm",
    "#ends=xlr-3/female,phone-635-ts/plug&joins=a.1_b.sleeve&parts=transformer:a.2_a.3_b.tip_b.sleeve:1:10",
    "#ends=phone-35-trs/plug,rca/plug,rca/plug&joins=a.tip_b.centre,a.ring_c.centre,a.sleeve_b.shell_c.shell&cable=unbalanced-coax&length=1m&screen=none",
]


def wiring(address):
    return f"bench.read({json.dumps(address)}).wiring"
