"""What a location recordist asks every day, and a catalogue small enough to search for it."""

from dataclasses import replace

# one that needs nothing, one with a dozen leads, one that needs an adapter
ASKED = [
    ("mic-dynamic-xlr", "mixer-mic-in-p48-xlr"),
    ("mixer-line-out-xlr", "camera-mic-in-35"),
    ("mic-condenser-p48-xlr", "camera-mic-in-p48-xlr"),
    ("player-line-out-rca", "amplifier-line-in-rca"),
    ("wireless-receiver-out-35", "camera-mic-in-35"),
]


def with_every(nth, catalogue):
    """The catalogue with every nth lead."""
    return replace(catalogue, leads=dict(list(catalogue.leads.items())[::nth]))
