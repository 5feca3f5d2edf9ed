"""Routes and missing leads in the browser are those of Python: the same chains, the same
verdicts, the same words."""

import json
from dataclasses import replace

import pytest
from front import run, scripts

from generator.catalogue.published import as_data
from generator.engine.glance import glance, plainly
from generator.engine.missing import missing
from generator.engine.route import chains, routes
from generator.engine.sieve import sieve
from generator.engine.tables import tables

ASKED = [
    ("mic-dynamic-xlr", "mixer-mic-in-p48-xlr"),
    ("mixer-line-out-xlr", "camera-mic-in-35"),
    ("mic-condenser-p48-xlr", "camera-mic-in-35"),
    ("wireless-receiver-out-35", "camera-mic-in-35"),
    ("loudspeaker-amp-out-635", "mixer-line-in-635"),
    ("mic-dynamic-xlr", "mic-ribbon-xlr"),
]


@pytest.fixture(scope="module")
def few(catalogue):
    """The catalogue with every twelfth lead: three in a row are soon looked through."""
    return replace(catalogue, leads=dict(list(catalogue.leads.items())[::12]))


@pytest.fixture(scope="module")
def given(few, tmp_path_factory):
    file = tmp_path_factory.mktemp("given") / "given.json"
    file.write_text(json.dumps({"data": as_data(few), **tables()}))
    return file


def asked(expression, given):
    program = """(() => {
      const { engine, data, rulebook } = Ringfence;
      const through = (question) => { const steps = Ringfence.engine.search(data, rulebook, question);
        let step; do step = steps.next(); while (!step.done); return step.value; };
      return %s; })()"""
    return run(program % expression, scripts("engine"), given)


@pytest.mark.parametrize("start, target", ASKED)
def test_the_same_routes(few, given, start, target):
    own = [[list(found.through), found.verdict] for found in routes(few, start, target)]
    assert (
        asked(
            f"through({{from: '{start}', into: '{target}'}}).map(({{ through, verdict }}) => [through, "
            "verdict])",
            given,
        )
        == own
    )


@pytest.mark.parametrize("look", [sieve, glance])
@pytest.mark.parametrize("start, target", ASKED)
def test_the_same_first_looks_at_every_chain(few, given, start, target, look):
    listed = [chain for length in (0, 1, 2) for chain in chains(few, start, target, length)]
    plain = plainly(few)
    own = [[list(chain), list(look(plain, start, chain, target))] for chain in listed]
    assert (
        asked(
            f"[0, 1, 2].flatMap((length) => [...engine.chains(data, '{start}', '{target}', "
            f"length)]).map((chain) => [chain, engine.{look.__name__}(engine.plainly(data), rulebook, "
            f"'{start}', chain, '{target}')])",
            given,
        )
        == own
    )


@pytest.mark.parametrize("start, target", ASKED)
def test_the_same_missing_lead(few, given, start, target):
    assert asked(
        f"Ringfence.engine.missing(data, rulebook, {{from: '{start}', into: '{target}'}})", given
    ) == missing(few, start, target)
