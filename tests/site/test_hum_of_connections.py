"""Connections of the catalogue as runs: what the circuit says of cable, screen and second wire, the sentence
of two lengths, and the browser's twin of it over connections drawn from the whole table."""

import json
from math import isclose
from random import Random

import pytest
from front import run, scripts

from generator import interference
from generator.catalogue import default_directory
from generator.catalogue.published import as_data
from generator.engine.tables import tables as engine_tables
from generator.interference import apart
from generator.interference.connection import run_of
from generator.interference.published import as_data as published
from generator.ledger import lines, read

SEED, MANY = 20261129, 300
LOADED = scripts("engine", "interference/formulas", "interference")


@pytest.fixture(scope="module")
def known(catalogue):
    return interference.with_ports(interference.tables(), catalogue)


@pytest.fixture(scope="module")
def of(catalogue, known):
    """(from, leads, into) -> run or None."""
    return lambda start, leads, into: run_of(
        catalogue,
        known,
        catalogue.ports[start],
        [catalogue.leads[lead] for lead in leads],
        catalogue.ports[into],
    )


def test_a_microphone_lead_is_a_pair_through_and_through(of):
    made = of("mic-dynamic-xlr", ["xlr-f-to-xlr-m-3m"], "mixer-mic-in-p48-xlr")
    [lead] = made.leads
    assert (lead.cable, lead.length, lead.screen, lead.cold) == ("mic-pair", 3.0, "whole", "through")
    assert (made.source.powered, made.input.powered, made.transformer) == ("battery", "earthed", False)


def test_star_quad_and_a_ferrite_are_known_by_their_lead(of):
    """Star quad is a cable of its own; a ferrite round the lead takes some of the radio
    and nothing of the hum."""
    plain, quad, ferrite = (
        of("mic-dynamic-xlr", [f"xlr-f-to-xlr-m-{kind}3m"], "mixer-mic-in-p48-xlr")
        for kind in ("", "star-quad-", "ferrite-")
    )
    assert (quad.leads[0].cable, quad.ferrite, plain.ferrite, ferrite.ferrite) == ("star-quad", 0, 0, 170)
    assert ferrite.leads == plain.leads


def test_a_lead_that_reverses_is_no_worse(of):
    assert (
        of("mic-dynamic-xlr", ["xlr-f-to-xlr-m-crossed"], "mixer-mic-in-p48-xlr").leads[0].cold == "through"
    )


@pytest.mark.parametrize(
    "lead, cold, screen, cable",
    [
        # a link inside the XLR plug
        ("rca-to-xlr-m-3-to-1", "to the screen at the input", "whole", "coax-heavy"),
        # a core of its own from the RCA plug
        ("rca-to-xlr-m-two-core", "to the screen at the source", "whole", "mic-pair"),
        # the shell drives contact 3, nothing joins the cases
        ("rca-to-xlr-m-1-open", "through", "open at one end", "mic-pair"),
    ],
)
def test_the_three_wirings_of_a_player_into_a_balanced_input(of, lead, cold, screen, cable):
    [found] = of("player-line-out-rca", [lead], "mixer-line-in-xlr").leads
    assert (found.cold, found.screen, found.cable) == (cold, screen, cable)


def test_a_lifted_screen_and_a_transformer(of):
    assert (
        of("mic-dynamic-xlr", ["xlr-f-to-xlr-m-lift"], "mixer-mic-in-p48-xlr").leads[0].screen
        == "open at one end"
    )
    through = of("player-line-out-rca", ["rca-to-rca-transformer"], "amplifier-line-in-rca")
    assert through.transformer and through.leads[0].screen == "open at one end"


def test_pads_and_nothing_between_are_not_told(of):
    """What a pad takes from the signal the closed formulas do not know, and two halves
    that meet have no length."""
    assert of("mic-dynamic-xlr", ["xlr-f-to-xlr-m-pad-20-db"], "mixer-mic-in-p48-xlr") is None
    assert of("mic-dynamic-xlr", [], "plug-on-transmitter-in-p48-xlr") is None


def test_chains_add_their_lengths(of):
    assert (
        of("mic-dynamic-xlr", ["xlr-f-to-xlr-m-3m", "xlr-f-to-xlr-m-20m"], "mixer-mic-in-p48-xlr")
        .leads[0]
        .length
        == 23.0
    )


def test_two_lengths_in_a_sentence(of, known):
    balanced = of("mic-dynamic-xlr", ["xlr-f-to-xlr-m-3m"], "mixer-mic-in-p48-xlr")
    assert (
        apart.in_a_sentence(balanced, known)
        == "On 3 m between these two you will hear no hum; on 30 m beside a dimmer you may hear hum."
    )
    open_shell = of("player-line-out-rca", ["rca-to-xlr-m-1-open"], "mixer-line-in-xlr")
    assert (
        apart.in_a_sentence(open_shell, known)
        == "Between these two you will hear hum in the pauses, on 3 m as on 30 m beside a dimmer."
    )


def test_longer_beside_a_dimmer_is_never_told_as_quieter(drawn, of, known):
    for asked in drawn:
        made = of(*asked)
        if made:
            near, far = (
                apart.heard(interference.answer.answer(one, known))
                for one in (
                    apart.of_length(made, apart.SHORT),
                    apart.of_length(made, apart.LONG, (apart.DIMMER,)),
                )
            )
            assert far >= near, asked


@pytest.fixture(scope="module")
def drawn(catalogue, known):
    """Connections of one lead that work, drawn from all of the table: (from, [lead], into)."""
    rows = [
        row
        for row in lines.rows(read(default_directory() / "verdicts"))
        if row["verdict"] in ("safe", "lossy") and row["through"]
    ]
    sound = [row for row in rows if row["from"] in known.sources and row["into"] in known.inputs]
    return [(row["from"], row["through"], row["into"]) for row in Random(SEED).sample(sound, MANY)]


def test_the_browser_makes_the_same_runs(catalogue, known, of, drawn, tmp_path):
    file = tmp_path / "given.json"
    file.write_text(
        json.dumps({"data": as_data(catalogue), **engine_tables(), "runs": published(known), "asked": drawn})
    )
    found = run(
        """(() => {
      const { data, interference: runs } = Ringfence, tables = Ringfence.runs;
      return Ringfence.asked.map(([from, leads, into]) => {
        const made = runs.runOf(data, tables, data.ports[from], leads.map((id) => data.leads[id]), data.ports[into]);
        return made && { lead: made.leads[0], powered: [made.source.powered, made.input.powered], transformer: made.transformer,
          says: runs.inASentence(made, tables), kinds: runs.kindsFor(made, tables),
          treble: runs.kindsFor(made, tables).map((kind) => runs.trebleAt(made, kind, 30, tables)) }; }); })()""",
        LOADED,
        file,
    )
    wrong, told = [], 0
    for asked, other in zip(drawn, found):
        made = of(*asked)
        if made is None:
            wrong += [asked] if other else []
            continue
        told += 1
        kinds = apart.kinds(made, known)
        own = {
            "lead": vars(made.leads[0]),
            "powered": [made.source.powered, made.input.powered],
            "transformer": made.transformer,
            "says": apart.in_a_sentence(made, known),
            "kinds": list(kinds),
        }
        treble = other.pop("treble")
        if other != own or not all(
            isclose(apart.treble_at(made, kind, 30.0, known), value, rel_tol=1e-9)
            for kind, value in zip(kinds, treble)
        ):
            wrong.append((asked, own, other))
    assert told > MANY / 2 and not wrong, wrong[:5]
