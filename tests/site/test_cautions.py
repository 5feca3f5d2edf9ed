"""What an answer tells to take care of: only what its connection, in its setting, has. Held to the real catalogue, run by node."""

import json

import pytest
from front import run, scripts

from generator.catalogue.kinds import WHEN
from generator.catalogue.published import as_data
from generator.engine.tables import tables
from generator.site import mated

PAGE = "globalThis.document = { querySelector: () => null, addEventListener() {} }; globalThis.window.addEventListener = () => {}; globalThis.location = { href: 'file:///' };"
LEAD = "xlr-f-to-xlr-m-3m"


@pytest.fixture(scope="module")
def asked(catalogue, tmp_path_factory):
    file = tmp_path_factory.mktemp("cautions") / "given.json"
    file.write_text(json.dumps({"data": as_data(catalogue), **tables(), "mated": mated.table(catalogue)}))
    return lambda expression: run(expression, scripts("engine", "ui", "check/asked.js"), file, before=PAGE)


def careful(asked, start, through, into, judged, setting=None):
    question = {"from": start, "through": through, "into": into}
    return asked(f"check.careful({json.dumps(question)}, {json.dumps(judged)}, {json.dumps(setting or {})})")


def about(word, told):
    return [text for text in told if word in text]


def test_every_condition_has_its_meaning(asked):
    assert sorted(asked("Object.keys(check.CONDITIONS)")) == sorted(WHEN)


def test_every_condition_is_some_caution_s(catalogue):
    used = {name for record in [*catalogue.ports.values(), *catalogue.leads.values()] for one in record.cautions for name in one.when}
    assert used == set(WHEN)


LOSSY, SAFE = {"verdict": "lossy", "offer": ""}, {"verdict": "safe", "offer": ""}


def test_phantom_is_a_thing_to_beware_of_where_an_end_gives_it(asked):
    """Common practice: 48 V in an output is what one switches off before plugging."""
    assert about("phantom", careful(asked, "mixer-line-out-xlr", [LEAD], "mixer-mic-in-p48-xlr", LOSSY))
    assert not about("phantom", careful(asked, "mixer-line-out-xlr", [LEAD], "powered-loudspeaker-in-xlr", LOSSY))


def test_what_is_switched_off_is_nothing_to_beware_of(asked):
    ends = "mixer-line-out-xlr", [LEAD], "mixer-mic-in-p48-xlr", LOSSY
    assert about("phantom", careful(asked, *ends, {"into.phantom": "on"}))
    assert not about("phantom", careful(asked, *ends, {"into.phantom": "off"}))
    assert about("phantom", careful(asked, *ends, {"into.phantom": "off", "other.phantom": "on"}))


def test_where_all_is_safe_no_supply_is_warned_of(asked):
    """A dynamic microphone does not mind phantom through a sound lead: common practice."""
    assert not about("hantom", careful(asked, "mic-dynamic-xlr", [LEAD], "mixer-mic-in-p48-xlr", SAFE))


def test_plug_in_power_without_a_switch_counts(asked):
    """A recorder that gives it always, with nothing to turn it off, drives it through a moving coil as well: common practice."""
    lead = "xlr-f-to-35-trs-tip-3-open"
    assert about("plug-in power", careful(asked, "mic-dynamic-xlr", [lead], "recorder-mic-in-35", LOSSY))
    assert not about("plug-in power", careful(asked, "mic-dynamic-xlr", [lead], "recorder-line-in-35", LOSSY))


def test_where_nothing_could_be_judged_all_is_told(asked):
    every = asked("Object.values(Ringfence.data.ports).find(({ id }) => id === 'mixer-line-out-xlr').cautions.map(({ says }) => says)")
    assert every and set(every) <= set(careful(asked, "mixer-line-out-xlr", [], "powered-loudspeaker-in-xlr", None))
