"""A line output into a microphone input with phantom: what is judged, and one way of plugging it."""

from types import SimpleNamespace

from generator.engine.assemble import ways
from generator.engine.pairing import Output

LINE_INTO_PHANTOM = "mixer-line-out-xlr", ("xlr-f-to-xlr-m-3m",), "mixer-mic-in-p48-xlr"


def line_into_phantom(catalogue):
    """Outlet, leads, inlet, the way they are plugged."""
    start, through, target = LINE_INTO_PHANTOM
    parts = catalogue.ports[start], [catalogue.leads[name] for name in through], catalogue.ports[target]
    return *parts, ways(catalogue, *parts)[0]


def sends(kind, nominal):
    return Output("from", SimpleNamespace(id="main", kind=kind, nominal=nominal, channel="main"))
