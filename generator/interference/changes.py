"""The cures as changes of a run: what one would do differently, nothing about what it gains."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from .between import row_of
from .nearby import longest
from .numbers import TYPICAL, is_balanced
from .run import Beside, Lead, Run
from .tables import Tables

BETTER = {
    "coax-thin": "coax-heavy",
    "instrument-lead": "coax-heavy",
    "headphone-lead": "coax-heavy",
    "zip-cord": "coax-heavy",
    "foil-pair": "mic-pair",
    "served-pair": "mic-pair",
    "network-pair": "mic-pair",
    "digital-pair": "mic-pair",
    "video-coax": "coax-heavy",
}
TWISTED = {
    "lamp-lead": "flex",
    "flat-feeder": "round-feeder",
    "single-cores": "round-feeder",
    "loudspeaker-or-busbar": "round-feeder",
}


def scaled(run: Run, times: float) -> Run:
    """Everything near, so many times as far."""
    beside = tuple(replace(one, distance=one.distance * times) for one in run.beside)
    return replace(
        run, beside=beside, things=tuple(replace(one, distance=one.distance * times) for one in run.things)
    )


def _unmeasured(run: Run, **change) -> Run:
    """A change of what lies between the cases; readings of the old state no longer hold."""
    return replace(run, measured_volts=0.0, measured_amps=0.0, **change)


def _same_strip(run: Run, tables: Tables) -> Run | None:
    if {run.source.powered, run.input.powered} != {"earthed"} or run.sockets == "same strip":
        return None
    return _unmeasured(run, sockets="same strip", dimmers=False)


def _undim(run: Run, tables: Tables) -> Run | None:
    plain = tuple(
        replace(one, load="lamp", amps=_amps(one, tables)) if _dimmed(one, tables) else one
        for one in run.beside
    )
    return replace(run, beside=plain, dimmers=False)


def _dimmed(one: Beside, tables: Tables) -> bool:
    return tables.loads[one.load]["wave"] == "dimmer"


def _amps(one: Beside, tables: Tables) -> float:
    return one.amps or tables.loads[one.load]["amps"][TYPICAL]


def _away(run: Run, tables: Tables) -> Run | None:
    return scaled(run, 2.0) if run.beside or run.things else None


def _cross(run: Run, tables: Tables) -> Run | None:
    return replace(run, beside=tuple(replace(one, lies="crossing") for one in run.beside))


def _uncoil(run: Run, tables: Tables) -> Run | None:
    return replace(run, spare=None)


def _eight(run: Run, tables: Tables) -> Run | None:
    return replace(run, spare=replace(run.spare, lies="figure of eight")) if run.spare else None


def _battery(run: Run, tables: Tables) -> Run | None:
    """The device on a two-pin plug first: it is the one more often with a battery."""
    for side in _on_mains(run):
        return _unmeasured(run, **{side: replace(getattr(run, side), powered="battery")})
    return None


def _on_mains(run: Run) -> list[str]:
    return [
        side
        for powered in ("insulated", "earthed")
        for side in ("source", "input")
        if getattr(run, side).powered == powered
    ]


def mains_device(run: Run, tables: Tables) -> str:
    """The device to run from a battery, in words."""
    sides = _on_mains(run)
    rows = {"source": tables.sources, "input": tables.inputs}
    return rows[sides[0]][getattr(run, sides[0]).device]["name"] if sides else "the device"


def _mend(run: Run, tables: Tables) -> Run | None:
    return replace(run, leads=tuple(replace(lead, screen="whole") for lead in run.leads))


def _contact_one(run: Run, tables: Tables) -> Run | None:
    return replace(
        run, source=replace(run.source, contact_one=False), input=replace(run.input, contact_one=False)
    )


def _bond(run: Run, tables: Tables) -> Run | None:
    return (
        None
        if run.bond or "battery" in (run.source.powered, run.input.powered)
        else replace(run, bond=tables.constants["bond"]["values"][TYPICAL])
    )


def _half(run: Run, tables: Tables) -> Run | None:
    leads = tuple(replace(lead, length=lead.length / 2) for lead in run.leads)
    return replace(run, leads=leads, beside=tuple(replace(one, along=one.along / 2) for one in run.beside))


def _better(cable: str, run: Run, tables: Tables) -> str:
    """A cable of less screen resistance that the two devices can use."""
    build = tables.cables[cable]["build"]
    if (
        build == "two wires"
        and tables.sources[run.source.device]["balanced"]
        and tables.inputs[run.input.device]["balanced"]
    ):
        return "mic-pair"
    return BETTER.get(cable, cable)


def better_name(run: Run, tables: Tables) -> str:
    """The better cable in words."""
    return tables.cables[_better(longest(run).cable, run, tables)]["name"]


def _cable(run: Run, tables: Tables) -> Run | None:
    return replace(
        run, leads=tuple(replace(lead, cable=_better(lead.cable, run, tables)) for lead in run.leads)
    )


def _quad(run: Run, tables: Tables) -> Run | None:
    if not all(tables.cables[lead.cable]["build"] in ("pair", "open pair") for lead in run.leads):
        return None
    return replace(run, leads=tuple(replace(lead, cable="star-quad") for lead in run.leads))


def _pairs(run: Run) -> tuple[Lead, ...]:
    return tuple(replace(lead, cable="mic-pair", cold="through", screen="whole") for lead in run.leads)


def _two_core(run: Run, tables: Tables) -> Run | None:
    sound = tables.inputs[run.input.device]["balanced"] and not tables.sources[run.source.device]["balanced"]
    return replace(run, leads=_pairs(run)) if sound and not is_balanced(run, tables) else None


def _transformer(run: Run, tables: Tables) -> Run | None:
    """Only where a resistance lies between the cases; with a floating device its own capacitance
    would carry as much.
    """
    line = tables.sources[run.source.device]["kind"] in ("line", "headphone")
    return replace(run, transformer=True) if line and "ohm" in row_of(run, tables) else None


def _balanced(run: Run, tables: Tables) -> Run | None:
    source, input = tables.sources[run.source.device], tables.inputs[run.input.device]
    line = source["kind"] in ("line", "headphone") and input["kind"] == "line"
    if not line or (source["balanced"] and input["balanced"] and is_balanced(run, tables)):
        return None
    return replace(
        run,
        source=replace(run.source, device="line-balanced"),
        input=replace(run.input, device="line-input"),
        leads=_pairs(run),
    )


def _transformer_input(run: Run, tables: Tables) -> Run | None:
    row = tables.inputs[run.input.device]
    if not is_balanced(run, tables) or not row["common"] or row["kind"] not in ("line", "microphone"):
        return None
    kind = "mic-input-transformer" if row["kind"] == "microphone" else "line-input-transformer"
    return replace(run, input=replace(run.input, device=kind))


def _twist_feeder(run: Run, tables: Tables) -> Run | None:
    return replace(
        run, beside=tuple(replace(one, cable=TWISTED.get(one.cable, one.cable)) for one in run.beside)
    )


CHANGES: dict[str, Callable[[Run, Tables], Run | None]] = {
    "same-strip": _same_strip,
    "undim": _undim,
    "away": _away,
    "cross": _cross,
    "uncoil": _uncoil,
    "figure-of-eight": _eight,
    "battery": _battery,
    "mend": _mend,
    "contact-one": _contact_one,
    "bond": _bond,
    "half": _half,
    "cable": _cable,
    "quad": _quad,
    "two-core": _two_core,
    "transformer": _transformer,
    "balanced": _balanced,
    "transformer-input": _transformer_input,
    "twist-feeder": _twist_feeder,
}
