"""What rests on the circuit alone is worked out once: every answer stays what it is without that, and a
rating costs no solving."""

import json
import re

import pytest
from front import run, scripts, sources

from generator.catalogue import default_directory, load
from generator.catalogue.published import as_data
from generator.engine.tables import tables

LOADED = scripts(
    "engine", "ui/dom.js", "ui/words.js", "ui/catalogue.js", "own/quantity.js", "own/said.js", "own/apply.js"
)
CHAINS = [
    ("mic-electret-battery-xlr", "xlr-f-to-xlr-m-3m", "mixer-mic-in-p48-xlr"),
    ("mixer-line-out-xlr", "xlr-f-to-xlr-m-3m", "mixer-mic-in-p48-xlr"),
    ("mic-electret-stereo-35", None, "camera-mic-in-35"),
    ("mic-condenser-p48-xlr", "xlr-f-to-xlr-m-3m", "mixer-mic-in-xlr"),
]
# some come back
TYPED = ["63 V", "16 V", "150 ohm", "3 kohm", "63 V", "10 mV", "2 mA", "48 V", "16 V", "150 ohm"]
TELL = """(() => {
  const { own, data, rulebook } = Ringfence, told = [];
  const judged = (from, through, into, port) => { globalThis.factored = 0;
    const found = Ringfence.engine.judge({ ...data, ports: { ...data.ports, [from]: port } }, rulebook,
    { from, through, into }); return [JSON.stringify(found), factored]; };
  for (const [from, lead, into] of %s) {
    const through = lead ? [lead] : [];
    told.push([from, "nothing", ...judged(from, through, into, data.ports[from])]);
    for (const typed of %s) for (const ask of own.asksOf(from)) {
      const { port, used } = own.changed(data.ports[from], { [ask.id]: typed });
      if (used.length) told.push([ask.question, typed, ...judged(from, through, into, port)]);
    }
  }
  return told;
})()"""
NOTHING_KEPT = "(() => { Ringfence.engine.ROOM.most = 0; return %s; })()"
FACTORED = re.compile(rb"export function (factorReal|factorComplex)\((.*)\) {\n")


def counted(source: bytes) -> bytes:
    """lu.js, counting in `factored` how many matrices it factors."""
    found, places = FACTORED.subn(rb"export function \1(\2) {\n  globalThis.factored += 1;\n", source)
    assert places == 2
    return found


def answers(expression: str, data):
    return run(expression, LOADED, data, changed={"engine/lu.js": counted(sources()["engine/lu.js"])})


@pytest.fixture(scope="module")
def data(tmp_path_factory):
    published = as_data(load(default_directory()))
    file = tmp_path_factory.mktemp("solved") / "data.json"
    manual = {
        "questions": published["questions"],
        "asks": {name: port["asks"] for name, port in published["ports"].items()},
    }
    file.write_text(json.dumps({"data": published, "manual": manual, **tables()}))
    return file


@pytest.fixture(scope="module")
def told(data):
    """[question, typed, the whole answer, matrices factored], without and with what was solved before."""
    asked = TELL % (json.dumps(CHAINS), json.dumps(TYPED))
    return answers(NOTHING_KEPT % asked, data), answers(asked, data)


def test_every_answer_is_what_it_is_without(told):
    plain, kept = told
    assert [one[:3] for one in kept] == [one[:3] for one in plain] and len(plain) > 50
    assert len({one[2] for one in plain}) > 20, "the numbers matter"


def test_a_rating_leaves_nothing_to_solve(told):
    """It is compared with what the circuit does, and the circuit is the same."""
    plain, kept = told
    ratings = [(before[3], after[3]) for before, after in zip(plain, kept) if after[0].startswith("highest-")]
    assert ratings and all(before > 50 and after == 0 for before, after in ratings)


def test_a_resistance_is_solved_anew(told):
    _, kept = told
    first = [one[3] for one in kept if one[:2] == ["output-impedance", "150 ohm"]]
    assert first[0] > 50 and first[1] == 0, "the second time it has been solved"


def test_what_is_kept_is_bounded(told):
    plain, _ = told
    assert all(one[3] > 50 for one in plain), "nothing is kept where nothing may be"


PASSING = """(() => {
  const { engine, data, rulebook } = Ringfence, [asked, other] = CHAINS.map(([from, lead, into]) =>
    ({ from, through: [lead], into })), factors = (question) => { globalThis.factored = 0;
    engine.judge(data, rulebook, question); return factored; };
  const first = factors(asked);
  engine.inPassing(() => engine.judge(data, rulebook, other));
  return [first, factors(asked), factors(other), factors(other)];
})()""".replace("CHAINS", json.dumps(CHAINS[:2]))


def test_what_is_judged_in_passing_is_not_kept(data):
    """Other ways are ranked after every number, and must not push out the one that is typed for."""
    first, again, other, other_again = answers(PASSING, data)
    assert first > 50 and again == 0 and other > 50 and other_again == 0
