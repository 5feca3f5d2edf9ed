"""What an answer tells to take care of: only what its connection, in its setting, has. Held to the real
catalogue, run by node."""

import json

import once
import pytest
from cautions_reader import conditions, told
from front import run, scripts

from generator.catalogue.caution import WHEN
from generator.catalogue.published import as_data
from generator.engine.tables import tables
from generator.site import mated

PAGE = (
    "globalThis.document = { querySelector: () => null, addEventListener() {} }; "
    "globalThis.window.addEventListener = () => {}; globalThis.location = { href: 'file:///' };"
)
LEAD = "xlr-f-to-xlr-m-3m"


@pytest.fixture(scope="module")
def asked(catalogue, tmp_path_factory):
    file = tmp_path_factory.mktemp("cautions") / "given.json"
    file.write_text(json.dumps({"data": as_data(catalogue), **tables(), "mated": mated.table(catalogue)}))
    return lambda expression: run(
        expression, scripts("engine", "ui", "check/asked.js", "check/cautions.js"), file, before=PAGE
    )


@pytest.fixture(scope="module")
def told_with(asked, catalogue, tmp_path_factory):
    """Every row of the ledger, and what the browser tells with it."""
    rows = once.rows(catalogue)
    file = tmp_path_factory.mktemp("rows") / "rows.json"
    file.write_text(
        json.dumps(
            [{key: row[key] for key in ("from", "through", "into", "verdict", "offer")} for row in rows]
        )
    )
    answers = asked(
        f"JSON.parse(require('node:fs').readFileSync({json.dumps(str(file))}, "
        "'utf8')).map((row) => check.careful(row, row))"
    )
    return list(zip(rows, answers, strict=True))


def careful(asked, start, through, into, judged, supplies=None, verdict=None):
    """What is told in all settings, or in the one with these `supplies`, whose verdict is the
    answer's if not given."""
    question, setting = (
        {"from": start, "through": through, "into": into},
        supplies and {"supplies": supplies, "verdict": verdict or judged["verdict"]},
    )
    return asked(f"check.careful({json.dumps(question)}, {json.dumps(judged)}, {json.dumps(setting)})")


def about(word, told):
    return [text for text in told if word in text]


def test_every_condition_has_its_meaning(asked):
    assert sorted(asked("Object.keys(check.CONDITIONS)")) == sorted(WHEN)


def test_every_condition_is_some_caution_s(catalogue):
    used = {
        name
        for record in [*catalogue.ports.values(), *catalogue.leads.values()]
        for one in record.cautions
        for name in one.when
    }
    assert used == set(WHEN)


LOSSY, SAFE = {"verdict": "lossy", "offer": ""}, {"verdict": "safe", "offer": ""}


def test_phantom_is_a_thing_to_beware_of_where_an_end_gives_it(asked):
    """Common practice: 48 V in an output is what one switches off before plugging."""
    assert about("phantom", careful(asked, "mixer-line-out-xlr", [LEAD], "mixer-mic-in-p48-xlr", LOSSY))
    assert not about(
        "phantom", careful(asked, "mixer-line-out-xlr", [LEAD], "powered-loudspeaker-in-xlr", LOSSY)
    )


def test_what_is_switched_off_is_nothing_to_beware_of(asked):
    ends = "mixer-line-out-xlr", [LEAD], "mixer-mic-in-p48-xlr", LOSSY
    assert about("phantom", careful(asked, *ends, {"into.phantom": "on"}))
    assert not about("phantom", careful(asked, *ends, {"into.phantom": "off"}))
    assert about("phantom", careful(asked, *ends, {"into.phantom": "off", "other.phantom": "on"}))


def test_where_all_is_safe_no_supply_is_warned_of(asked):
    """A dynamic microphone does not mind phantom through a sound lead: common practice."""
    assert not about("hantom", careful(asked, "mic-dynamic-xlr", [LEAD], "mixer-mic-in-p48-xlr", SAFE))


def test_plug_in_power_without_a_switch_counts(asked):
    """A recorder that gives it always, with nothing to turn it off, drives it through a moving coil as
    well: common practice."""
    lead = "xlr-f-to-35-trs-tip-3-open"
    assert about("plug-in power", careful(asked, "mic-dynamic-xlr", [lead], "recorder-mic-in-35", LOSSY))
    assert not about("plug-in power", careful(asked, "mic-dynamic-xlr", [lead], "recorder-line-in-35", LOSSY))


def test_where_nothing_could_be_judged_all_is_told(asked):
    every = asked(
        "Object.values(Ringfence.data.ports).find(({ id }) => id === 'mixer-line-out-xlr').cautions.map(({ "
        "says }) => says)"
    )
    assert every and set(every) <= set(
        careful(asked, "mixer-line-out-xlr", [], "powered-loudspeaker-in-xlr", None)
    )


def test_an_answer_tells_nothing_that_does_not_apply(told_with, catalogue, record_property):
    """The law, on every row of the ledger: what is told has no condition, or one that a
    second reader finds there."""
    assert [
        (names(row), found) for row, texts in told_with if (found := set(texts) - told(catalogue, row))
    ] == []
    safe = [len(texts) for row, texts in told_with if row["verdict"] == "safe"]
    assert len(safe) > 2000
    record_property(
        "told",
        f"{sum(safe) / len(safe):.2f} cautions told with each of {len(safe)} safe answers, none with "
        f"{safe.count(0)}",
    )


def test_no_answer_passes_over_what_applies(told_with, catalogue):
    assert [
        (names(row), left) for row, texts in told_with if (left := told(catalogue, row) - set(texts))
    ] == []


def names(row):
    return " > ".join([row["from"], *row["through"], row["into"]])


PAD = "xlr-f-to-xlr-m-pad-20-db"
BOTH_WAYS = [  # condition, a word of the caution, a question with it, one without
    (
        "meets-phantom",
        "maker's word",
        ("wireless-receiver-out-protected-xlr", [LEAD], "mixer-mic-in-p48-xlr"),
        ("wireless-receiver-out-protected-xlr", [LEAD], "mixer-mic-in-xlr"),
    ),
    (
        "meets-phantom",
        "maker's word",
        ("line-out-phantom-protected-xlr", ["xlr-f-to-xlr-m-phantom-supply"], "camera-line-in-xlr"),
        ("line-out-phantom-protected-xlr", [LEAD], "camera-line-in-xlr"),
    ),
    (
        "needs-power",
        "On batteries",
        ("mic-condenser-p48-xlr", [LEAD], "recorder-mic-in-p48-combo"),
        ("mic-dynamic-xlr", [LEAD], "recorder-mic-in-p48-combo"),
    ),
    (
        "full-battery",
        "full battery",
        ("camera-battery-out-xlr-4", [], "camera-dc-in-xlr-4"),
        ("mains-adapter-12-volt-barrel", ["dc-barrel-55-21-jack-to-xlr-4-f"], "camera-dc-in-xlr-4"),
    ),
    (
        "line",
        "Line level",
        ("mixer-line-out-xlr", ["xlr-f-to-two-xlr-m-transformer"], "mixer-line-in-xlr"),
        ("mic-dynamic-xlr", ["xlr-f-to-two-xlr-m-transformer"], "mixer-mic-in-xlr"),
    ),
    (
        "data",
        "digital line",
        ("digital-out-xlr", ["xlr-f-to-xlr-m-digital-110-ohm"], "digital-in-xlr"),
        ("mic-dynamic-xlr", ["xlr-f-to-xlr-m-digital-110-ohm"], "mixer-mic-in-xlr"),
    ),
    (
        "balanced",
        "cold side",
        ("mixer-line-out-xlr", ["xlr-f-to-635-ts-3-to-1"], "mixer-line-in-635-ts"),
        ("loudspeaker-amp-out-xlr", ["xlr-f-to-635-ts-3-to-1"], "mixer-line-in-635-ts"),
    ),
    (
        "headphones",
        "ear",
        ("listening-receiver-phones-35", [], "headphones-35"),
        ("listening-receiver-phones-35", ["phone-35-trs-to-35-trs"], "camera-line-in-35"),
    ),
    (
        "mains",
        "other people's mains",
        ("mixer-line-out-xlr", ["xlr-f-to-xlr-m-100m"], "mixer-line-in-xlr"),
        ("mic-dynamic-xlr", ["xlr-f-to-xlr-m-100m"], "mixer-mic-in-xlr"),
    ),
    (
        "mains",
        "on the mains",
        ("mic-dynamic-xlr", ["xlr-f-to-two-xlr-m"], "mixer-mic-in-xlr"),
        ("mic-dynamic-xlr", ["xlr-f-to-two-xlr-m"], "plug-on-transmitter-in-p48-xlr"),
    ),
    (
        "more-leads",
        "long run",
        ("mixer-line-out-xlr", [LEAD, PAD], "mixer-mic-in-xlr"),
        ("mixer-line-out-xlr", [PAD], "mixer-mic-in-xlr"),
    ),
]


@pytest.mark.parametrize(
    "name, word, there, absent", BOTH_WAYS, ids=[f"{name}-{there[0]}" for name, _, there, _ in BOTH_WAYS]
)
def test_a_condition_decides(asked, catalogue, name, word, there, absent):
    """Told where it is there, left out where it is not, in an answer that is safe; and the two
    differ in this condition."""
    [condition] = {
        one.when
        for record in (
            catalogue.ports[there[0]],
            *map(catalogue.leads.get, there[1]),
            catalogue.ports[there[2]],
        )
        for one in record.cautions
        if word in one.says
    }
    assert name in condition
    assert about(word, careful(asked, *there, SAFE))
    assert not about(word, careful(asked, *absent, SAFE))


def test_what_a_rating_is_relied_on_for_is_told_until_phantom_is_off(asked):
    ends = "wireless-receiver-out-protected-xlr", [LEAD], "mixer-mic-in-p48-xlr", SAFE
    assert about("maker's word", careful(asked, *ends, {"into.phantom": "on"}))
    assert not about("maker's word", careful(asked, *ends, {"into.phantom": "off"}))


def test_phantom_from_a_lead_has_no_switch_at_an_input(asked):
    ends = "line-out-phantom-protected-xlr", ["xlr-f-to-xlr-m-phantom-supply"], "mixer-mic-in-p48-xlr", SAFE
    assert about("maker's word", careful(asked, *ends, {"into.phantom": "off"}))


@pytest.mark.parametrize(
    "judged, is_told",
    [
        (SAFE, False),
        (LOSSY, True),
        ({"verdict": "no signal", "offer": ""}, True),
        ({"verdict": "dangerous", "offer": ""}, True),
        ({"verdict": "safe", "offer": "Plug it with phantom off."}, True),
    ],
)
def test_what_the_circuit_would_show_is_told_where_it_is_not_safe(asked, judged, is_told):
    """A contact microphone is thin on anything but an input of high impedance: common practice."""
    assert (
        bool(about("1 Mohm", careful(asked, "contact-microphone-635", [], "active-di-in-635", judged)))
        is is_told
    )


def test_a_setting_that_is_not_safe_has_its_cautions_in_an_answer_that_is(asked):
    """An active DI works with phantom on: the answer is safe. Whoever switches it off is told why nothing
    comes: common practice."""
    ends = "active-di-out-xlr", [PAD], "plug-on-transmitter-in-p48-xlr", SAFE
    assert not about("Without phantom", careful(asked, *ends))
    assert not about("Without phantom", careful(asked, *ends, {"into.phantom": "on"}))
    assert about("Without phantom", careful(asked, *ends, {"into.phantom": "off"}, "no signal"))


@pytest.mark.parametrize("judged", [SAFE, LOSSY, {"verdict": "dangerous", "offer": ""}])
def test_another_use_is_never_told(asked, judged):
    assert not about(
        "network socket",
        careful(asked, "audio-box-out-rj45", ["rj45-to-rj45-straight"], "audio-box-in-rj45", judged),
    )
