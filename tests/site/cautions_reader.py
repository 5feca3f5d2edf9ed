"""A second reader of what answers tell to take care of. It shares no code with the browser's, and where it
can it goes by other facts: supplies by what their switches are called, what a splitter joins by the
devices it is used between."""

from generator.catalogue import Catalogue

NO_SOUND = {"digital", "data", "contact", "midi", "video", "clock", "timecode"}


def told(catalogue: Catalogue, row) -> set[str]:
    """The texts that belong to a row of the ledger."""
    outlet, leads, inlet = (
        catalogue.ports[row["from"]],
        [catalogue.leads[name] for name in row["through"]],
        catalogue.ports[row["into"]],
    )
    there = conditions(outlet, leads, inlet, row["verdict"] == "safe" and row["offer"] == "")
    return {
        one.says
        for record in (outlet, *leads, inlet)
        for one in record.cautions
        if not one.when or there & set(one.when)
    }


def conditions(outlet, leads, inlet, safe: bool) -> set[str]:
    """The names of those that are there."""
    switches = " ".join(supply.name for port in (outlet, inlet) for supply in port.supplies)
    sent = {source.kind for source in outlet.sources}
    phantom = "phantom" in switches or any("phantom supply" in lead.name for lead in leads)
    found = {
        "meets-phantom": phantom,
        "needs-power": bool(outlet.needs),
        "full-battery": sent == {"power"} and max(volts(outlet), default=0) >= 15,
        "microphone": "microphone" in sent,
        "line": bool(sent & {"line", "headphone"}),
        "data": bool(sent & NO_SOUND),
        "amplifier": "loudspeaker" in sent,
        "stereo": len({source.channel for source in outlet.sources}) > 1,
        "balanced": True in {source.balanced for source in outlet.sources},
        "headphones": "headphone" in {listener.kind for listener in inlet.listeners},
        "mains": joined_on_the_mains(outlet, leads, inlet),
        "more-leads": len(leads) >= 2,
        "not-safe": not safe,
    }
    if not safe:  # where all is safe, a supply does nothing
        found |= {
            "phantom": phantom,
            "t-power": "T-power" in switches,
            "plug-in-power": "plug-in power" in switches or bias(outlet) or bias(inlet),
        }
    return {name for name, there in found.items() if there}


def volts(port) -> list[float]:
    return [part.value.high for part in port.network.parts if part.kind == "emf"]


def bias(port) -> bool:
    """Does it give a microphone a few volts, always on?"""
    return any(0 < most < 10 for most in volts(port)) and "microphone" in {
        listener.kind for listener in port.listeners
    }


def joined_on_the_mains(outlet, leads, inlet) -> bool:
    """Are two of the devices that may be joined on the mains? Of a splitter every tail
    may go to one of them."""
    devices = [outlet, inlet] * (2 if any(len(lead.ends) > 2 for lead in leads) else 1)
    return sum(set(device.powered_by) != {"battery"} for device in devices) >= 2
