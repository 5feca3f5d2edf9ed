"""A run as the part of an address behind the #, short enough to be sent and read: `from=mic-
dynamic-xlr,battery&into=...&lead=mic-pair,30`.
"""

from __future__ import annotations

from collections.abc import Iterator
from urllib.parse import quote

from .run import Run


def write(run: Run) -> str:
    """The address; what stands as it would anyway is left out. The browser reads it back, see address.js."""
    return "#" + "&".join(f"{key}={value}" for key, value in _parts(run))


def _parts(run: Run) -> Iterator[tuple[str, str]]:
    if run.name:
        yield "name", quote(run.name, safe="")
    for key, device in (("from", run.source), ("into", run.input)):
        yield key, _listed(device.device, device.powered, *(["wanders"] if device.contact_one else []))
    for lead in run.leads:
        yield "lead", _listed(lead.cable, lead.length, lead.screen, lead.cold, usual=("whole", "through"))
    if (run.volts, run.hertz) != (230.0, 50.0):
        yield "mains", _listed(run.volts, run.hertz)
    if run.sockets != "unknown":
        yield "sockets", _word(run.sockets)
    for key, is_so in (("dimmers", run.dimmers), ("held", run.held), ("transformer", run.transformer)):
        if is_so:
            yield key, "yes"
    for key, value in (
        ("volts", run.measured_volts),
        ("amps", run.measured_amps),
        ("bond", run.bond),
        ("ferrite", run.ferrite),
    ):
        if value:
            yield key, _word(value)
    for one in run.beside:
        yield (
            "beside",
            _listed(one.cable, one.load, one.amps, one.distance, one.along, one.lies, usual=("alongside",)),
        )
    if run.spare:
        yield "spare", _listed(run.spare.lies, run.spare.turns, run.spare.across, run.spare.distance)
    for thing in run.things:
        yield "thing", _listed(thing.thing, thing.distance)
    for one in run.transmitters:
        yield "radio", _listed(one.transmitter, one.distance, one.watts)
    for key, value in run.assume.items():
        yield "assume", _listed(key, value)


def _listed(*values: str | float, usual: tuple[str, ...] = ()) -> str:
    """Values with commas between; the last ones are left out where they are as usual."""
    texts, left = list(map(_word, values)), list(map(_word, usual))
    while left and texts[-1] == left[-1]:
        texts.pop()
        left.pop()
    return ",".join(texts)


def _word(value: str | float) -> str:
    """A word without spaces, a number as short as it can be read back."""
    return (
        quote(value.replace(" ", "-"))
        if isinstance(value, str)
        else repr(float(value)).removesuffix(".0").replace("+", "%2B")
    )
