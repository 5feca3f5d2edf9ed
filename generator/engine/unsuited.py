"""What the circuit at audio frequencies does not show: leads not made for fast signals or for loudspeakers,
and what amplifiers are plugged into."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.catalogue.records import Lead

from .assembly import Assembly
from .constants import ADAPTER_METRES
from .kinds import AUDIO, CONTACT, FAST, LOUDSPEAKER, SMALL, TIMECODE, as_sound
from .pairing import Input, Output
from .readings import Named, Reading


def unsuited(
    assembly: Assembly, here: str, there: str, pairs: Sequence[tuple[Output, Input]], beside: bool = False
) -> Iterator[Reading]:
    """Leads that do not suit what is sent from `here` to `there`, and timecode that is taken for sound;
    `beside`: the sound comes where timecode is looked for, too."""
    words = {"device": Named(here), "other": Named(there)}
    leads = {place: lead for place, lead in assembly.places.items() if isinstance(lead, Lead)}
    fast = next((o.source.kind for o, _ in pairs if o.source.kind in FAST), None)
    if fast:
        for place, lead in leads.items():
            slow = bool(lead.parts) and not lead.impedance and fast not in lead.made_for
            metres = 0.0 if lead.impedance or slow else lead.length or ADAPTER_METRES
            named, parts = {**words, "lead": Named(place)}, "coil" if lead.network.couplings else "other"
            yield Reading(
                "slow-lead", place, "lead", metres, "m", "signal", words=named, flags={"sent": fast}
            )
            yield Reading(
                "slow-parts", place, "lead", float(slow), "", "signal", words=named, flags={"parts": parts}
            )
    if any(o.source.kind in (*AUDIO, TIMECODE) for o, _ in pairs):
        for place, lead in leads.items():
            if lead.impedance and lead.network.couplings:
                named = {**words, "lead": Named(place)}
                yield Reading("fast-coil", place, "lead", 1.0, "", "signal", words=named)
    if any(o.source.kind == CONTACT for o, _ in pairs):
        for place, lead in leads.items():
            own = [part for part in lead.network.parts if part.id in lead.parts]
            shut = bool(lead.network.couplings) or any(part.kind == "capacitor" for part in own)
            yield Reading(
                "contact-shut",
                place,
                "lead",
                float(shut),
                "",
                "signal",
                words={**words, "lead": Named(place)},
            )
    if any(o.source.kind in SMALL and not (o.source.balanced and i.listener.balanced) for o, i in pairs):
        for place, lead in leads.items():
            bare = bool(lead.cable) and not any(join.screen for join in lead.joins)
            yield Reading(
                "bare-lead", place, "lead", float(bare), "", "signal", words={**words, "lead": Named(place)}
            )
    onto = next((o.source.kind == TIMECODE for o, i in pairs if as_sound(o.source, i.listener)), None)
    if onto is not None or beside:
        flags = {"track": "beside" if beside else "into" if onto else "from"}
        yield Reading("timecode-as-sound", here, "signal", 1.0, "", "signal", words=words, flags=flags)


def amplifiers(assembly: Assembly) -> Iterator[Reading]:
    """Amplifier outputs that reach anything but a loudspeaker, or go through parts that were not made for
    them; whatever else the two devices are, and whatever the circuit says."""
    for side, other in (("from", "into"), ("into", "from")):
        device, target = assembly.places[side], assembly.places[other]
        if not any(source.kind == LOUDSPEAKER for source in device.sources):
            continue
        words = {"device": Named(side), "other": Named(other)}
        if not any(listener.kind == LOUDSPEAKER for listener in target.listeners):
            yield Reading("amplifier-into", side, "connection", 1.0, "", "signal", words=words)
        for place, lead in assembly.places.items():
            if isinstance(lead, Lead) and lead.parts and LOUDSPEAKER not in lead.made_for:
                yield Reading(
                    "amplifier-through",
                    place,
                    "lead",
                    1.0,
                    "",
                    "signal",
                    words={**words, "lead": Named(place)},
                )
