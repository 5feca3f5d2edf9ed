"""The independent reader on circuits of the catalogue: wrong leads, and ngspice beside it."""

from __future__ import annotations

from dataclasses import replace
from random import Random
from zlib import crc32

import numpy as np
import pytest
import reader_netlist
from connections import short_list
from corners import corners, values
from dangers import amplifier, dangers
from islands import pairs_of
from loud import HERTZ, alternating
from settings import modes
from simulator import needs_ngspice, simulate
from states import HOME
from sums import HELD, boil, settle
from wiring import wirings

from generator.catalogue.records import Part

DRAWN = 40  # pairings beside the short list
ALIKE, FLOOR = 1e-5, 1e-5  # of a number, of the circuit's largest voltage


def test_an_amplifier_into_anything_that_is_no_loudspeaker(catalogue):
    def port(listens: set[str], sends: set[str]):
        return next(
            one
            for one in catalogue.ports.values()
            if {heard.kind for heard in one.listeners} == listens
            and {sent.kind for sent in one.sources} == sends
        )

    amplified = port(set(), {"loudspeaker"})
    digital, mic = port({"digital"}, set()), port({"microphone"}, set())
    assert not amplifier(amplified, port({"loudspeaker"}, set()))
    assert amplifier(amplified, digital) and amplifier(amplified, mic) and amplifier(digital, amplified)
    assert not amplifier(mic, digital)


@pytest.mark.parametrize(
    "outlet, leg, harmed",
    [
        ("mic-ribbon-xlr", "a.2", "winding"),
        ("mic-ribbon-xlr", "a.3", "winding"),
        ("mic-condenser-p48-xlr", "a.3", "across"),
    ],
)
def test_a_leg_joined_to_the_screen_under_phantom_is_caught(catalogue, outlet, leg, harmed):
    """Hot or cold on the screen puts phantom across a ribbon's transformer (48 V / 6.81 kohm, 7 mA) or
    between the legs of a condenser microphone; the lead as it is made does not."""
    whole = catalogue.leads["xlr-f-to-xlr-m-3m"]
    fault = Part("fault", "wire", leg, "a.1")
    broken = replace(whole, network=replace(whole.network, parts=(*whole.network.parts, fault)))
    for lead, caught in ((broken, True), (whole, False)):
        hits = dangers(replace(catalogue, leads={"lead": lead}), (outlet, ("lead",), "mixer-mic-in-p48-xlr"))
        assert any(harmed in hit.part for hit in hits if hit.state == "settled") == caught


def drawn(catalogue, every_pairing):
    """Every way of plugging of the short list, which has every template and every kind of part in it, and
    of those pairings whose ids are drawn; each with its own chance."""
    ids = {pairing: " ".join((pairing[0], *pairing[1], pairing[2])) for pairing in every_pairing}
    by_chance = sorted(every_pairing, key=lambda pairing: crc32(ids[pairing].encode()))
    for pairing in [*short_list(catalogue, every_pairing), *by_chance[:DRAWN]]:
        for wired in wirings(catalogue, pairing):
            chance = Random(ids[pairing])
            state = chance.randrange(len(wired.closed) - 1)
            yield ids[pairing], wired, chance, chance.choice(corners(wired)), state


def hold(texts, own, record_property, what: str) -> None:
    """Every number that a limit is about, as ngspice has it."""
    wrong, compared = [], 0
    for (name, pairs, found), [other] in zip(own, simulate(texts)):
        largest = max(np.abs(found[pairs]).max(initial=0.0), 1e-3)
        for a, b in pairs:
            mine, theirs = found[a] - found[b], other[f"n{a}"] - other[f"n{b}"]
            compared += 1
            if not abs(mine - theirs) <= ALIKE * abs(theirs) + FLOOR * largest:
                wrong.append(f"{name}: {mine:.9g}, ngspice has {theirs:.9g}")
    told = f"{compared} numbers of {len(texts)} circuits"
    record_property("told", f"independent reader against ngspice, {what}: {told}")
    assert compared and not wrong, f"{len(wrong)} of {compared}:\n" + "\n".join(wrong[:20])


@pytest.mark.oracle
@needs_ngspice
def test_direct_current_and_first_instants_agree_with_ngspice(catalogue, every_pairing, record_property):
    """Half of them with the large capacitors at volts that are drawn."""
    texts, own = [], []
    for name, wired, chance, corner, state in drawn(catalogue, every_pairing):
        asked = modes(wired)
        mode = chance.randrange(len(asked))
        series = np.full(len(wired.large), HELD) if wired.large and chance.random() < 0.5 else None
        sums, gone = boil(wired, corner, np.array([state]), series), asked.gone[mode]
        volts = sums.values[list(wired.supplies)] * asked.on[mode]
        held = np.array([[[chance.uniform(-50, 50) for _ in sums.capacitors]]])
        found = settle(sums, volts[None], gone, held if sums.capacitors else None)[0, 0]
        away = {i for i, absent in zip(wired.supplies, gone) if absent}
        texts.append(
            reader_netlist.direct(
                wired,
                sums.values,
                state,
                dict(zip(wired.supplies, volts)),
                away,
                dict(zip(sums.capacitors, held[0, 0])),
            )
        )
        own.append((name, pairs_of(wired.rated)[sums.tied(gone, wired.rated)[0]], found))
    hold(texts, own, record_property, "direct current")


@pytest.mark.oracle
@needs_ngspice
def test_signal_agrees_with_ngspice(catalogue, every_pairing, record_property):
    texts, own = [], []
    for name, wired, chance, corner, state in drawn(catalogue, every_pairing):
        sources, hertz = modes(wired).sources, chance.choice(HERTZ[HOME])
        if not sources:
            continue
        place, sent = chance.choice(sources)
        worth, pace = values(wired, corner), np.array([2j * np.pi * hertz])
        found = alternating(wired, [(place, sent)], worth, np.array([state]), pace)[0, 0, :, 0]
        number = {piece.id: i for i, piece in enumerate(wired.pieces)}
        drive = {number[f"{place}/{part}"]: share for part, share in sent.drive.items()}
        texts.append(reader_netlist.alternating(wired, worth, state, drive, hertz))
        own.append((name, pairs_of(wired.rated), found))
    hold(texts, own, record_property, "signals")
