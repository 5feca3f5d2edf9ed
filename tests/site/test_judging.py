"""Who asks the engine, run by node with a worker that does as it is told: what is void stays unanswered, and
what a worker cannot do the page does."""

import json

import pytest
from front import run, scripts

LOADED = scripts("ui/dom.js", "ui/slices.js", "judging/kinds.js", "judging/ask.js")
# Workers answer when the test says so. What the page itself works out ends in "here".
PAGE = """
globalThis.document = { hidden: true, scripts: [],
  currentScript: { src: "https://example.org/assets/js/check.js" }, querySelector: () =>
  ({ content: "0a1b2c3d" }) };
globalThis.made = [];
globalThis.Worker = class {
  constructor(script) { made.push(this); Object.assign(this, { script: String(script), posted: [],
    gone: false }); }
  postMessage(data) { this.posted.push(structuredClone(data)); }
  terminate() { this.gone = true; }
};
const pause = (ms = 20) => new Promise((done) => setTimeout(done, ms));
const say = (data, worker = made.at(-1)) => worker.onmessage({ data });
const answer = (id, value, worker) => say({ id, told: [], done: { answer: value } }, worker);
"""
PLAYED = """(async () => {
  const { judging } = Ringfence, got = [];
  Object.assign(judging.PATIENCE, { coming: 300, grace: 100, idle: 150 });
  Ringfence.engine = { judge: (data, rules, { from }) => ({ verdict: `${from} here` }) };
  const question = (from) => ({ question: { from, through: [], into: "b" }, ports: {}, leads: {} });
  const ask = (from, more) => judging.ask("judge", question(from), more).then(({ judged, verdict }) =>
    got.push(verdict || judged.verdict), (fault) => got.push(fault.message));
  %s
  await pause();
  return { got, made: made.map(({ posted, gone }) =>
    ({ gone, asked: posted.map(({ stop, request }) => (stop ? `stop ${stop}` : request.question ?
    request.question.from : request.after)) })) };
})()"""


@pytest.fixture(scope="module")
def played(tmp_path_factory):
    data = tmp_path_factory.mktemp("judging") / "data.json"
    data.write_text(json.dumps({"data": {"ports": {}, "leads": {}}, "rulebook": []}))
    return lambda script, before=PAGE: run(PLAYED % script, LOADED, data, before)


def test_a_worker_answers_and_stays_for_the_next_question(played):
    assert played("""const first = ask("a"); say({ ready: true }); answer(1, { verdict: "safe" });
      await first;
      const second = ask("c"); answer(2, { verdict: "lossy" }); await second;""") == {
        "got": ["safe", "lossy"],
        "made": [{"gone": False, "asked": ["a", "c"]}],
    }


def test_an_older_answer_that_comes_late_is_dropped(played):
    found = played(
        """ask("old"); ask("new"); answer(2, { verdict: "new" }); answer(1, { verdict: "old" });"""
    )
    assert found == {"got": ["new"], "made": [{"gone": False, "asked": ["old", "stop 1", "new"]}]}


def test_questions_in_other_lanes_do_not_disturb_each_other(played):
    assert played(
        """ask("one", { lane: "x" }); ask("other"); answer(2, { verdict: "other" });
            answer(1, { verdict: "one" });"""
    )["got"] == ["other", "one"]


def test_what_is_stopped_is_never_answered(played):
    assert (
        played(
            """ask("one", { lane: "x" }); ask("other"); judging.stop("x"); answer(1, { verdict: "one" });
                judging.stop(); answer(2, { verdict: "other" });"""
        )["got"]
        == []
    )


RANKED = """const told = [];
  const ranking = judging.ask("each", { requests: [question("p"), question("q")] },
    { onstep: (one) => told.push(one) }).then(() => got.push(told.join()));
"""


def test_a_worker_that_does_not_stop_gives_way_to_a_new_one_that_tells_nothing_twice(played):
    found = played(
        RANKED
        + """say({ ready: true }); say({ id: 1, told: ["p"] });
      judging.ask("search", question("slow")); judging.stop("search");
      await pause(150);
      say({ id: 1, told: ["q"], done: { answer: null } }, made[0]);
      say({ id: 3, told: ["q"], done: { answer: null } });"""
    )
    assert found["got"] == ["p,q"]
    assert found["made"] == [{"gone": True, "asked": [0, "slow", "stop 2"]}, {"gone": False, "asked": [1]}]


def test_what_takes_long_has_a_worker_of_its_own_and_no_verdict_waits_for_it(played):
    found = played(
        """await Promise.all([ask("a"), answer(1, { verdict: "first" })]);"""
        + RANKED
        + """say({ ready: true });
      const typed = ask("typed"); answer(3, { verdict: "typed" }, made[0]); await typed;
      say({ id: 2, told: ["p", "q"], done: { answer: null } }); await ranking;"""
    )
    assert found["got"] == ["first", "typed", "p,q"]
    assert found["made"] == [{"gone": False, "asked": ["a", "typed"]}, {"gone": False, "asked": [0]}]


def test_the_worker_for_what_takes_long_ends_when_it_has_had_nothing_to_do_and_comes_again(played):
    found = played(
        """const first = ask("a"); answer(1, { verdict: "first" }); await first;"""
        + RANKED
        + """say({ id: 2, told: [], done: { answer: null } }); await ranking; await pause(250);
      judging.ask("search", question("more")); say({ ready: true });"""
    )
    assert found["made"] == [
        {"gone": False, "asked": ["a"]},
        {"gone": True, "asked": [0]},
        {"gone": False, "asked": ["more"]},
    ]


def test_a_worker_that_works_long_is_not_ended(played):
    found = played(RANKED + """say({ id: 1, told: ["p"] }); await pause(250);""")
    assert found["made"] == [{"gone": False, "asked": [0]}]


@pytest.mark.parametrize(
    "trouble",
    ["made[0].onerror({ preventDefault() {} });", "say({ refused: true });"],
    ids=["scripts do not load", "another edition"],
)
def test_where_no_second_worker_can_be_the_first_does_all(played, trouble):
    found = played(
        RANKED
        + trouble
        + """say({ id: 2, told: ["p", "q"], done: { answer: null } }); await ranking;
      judging.ask("search", question("more"));"""
    )
    assert found["got"] == ["p,q"]
    assert found["made"] == [{"gone": True, "asked": [0]}, {"gone": False, "asked": [0, "more"]}]


def test_where_the_first_is_refused_the_second_ends_too(played):
    found = played(
        RANKED + """const first = ask("a"); say({ refused: true }, made[1]); await first; await pause(100);"""
    )
    assert [one["gone"] for one in found["made"]] == [True, True]
    assert found["got"][0] == "a here" and len(found["got"]) == 2, "the page goes on with the ranking"


def test_a_worker_that_is_still_coming_is_not_sent_away(played):
    assert len(played("""ask("a"); judging.stop(); await pause(150);""")["made"]) == 1


def test_a_worker_that_stops_at_once_is_kept(played):
    assert (
        len(
            played(
                """ask("a"); say({ ready: true }); judging.stop(); say({ stopped: 1 }); await pause(150);"""
            )["made"]
        )
        == 1
    )


def test_while_a_worker_is_long_in_coming_the_page_answers_and_what_it_says_later_is_not_listened_to(played):
    found = played("""const first = ask("a"); await pause(400); await first; answer(1, { verdict: "late" });
      const second = ask("c"); answer(3, { verdict: "there" }); await second;""")
    assert found == {"got": ["a here", "there"], "made": [{"gone": False, "asked": ["a", "stop 1", "c"]}]}


@pytest.mark.parametrize(
    "trouble",
    ["say({ refused: true });", "made[0].onerror({ preventDefault() {} });"],
    ids=["another edition", "scripts do not load"],
)
def test_what_a_worker_refuses_the_page_works_out(played, trouble):
    found = played(f"""const first = ask("a"); {trouble} await first; await ask("c");""")
    assert found == {"got": ["a here", "c here"], "made": [{"gone": True, "asked": ["a"]}]}, (
        "nor is one tried again"
    )


@pytest.mark.parametrize(
    "without",
    [
        "delete globalThis.Worker;",
        "globalThis.Worker = class { constructor() { throw new Error('refused'); } };",
    ],
    ids=["no workers", "none from a disc"],
)
def test_where_no_worker_can_be_the_page_works_it_out(played, without):
    assert played("""await ask("a");""", PAGE + without) == {"got": ["a here"], "made": []}


def test_in_the_page_too_an_older_question_is_void(played):
    assert played("""ask("old"); await ask("new"); await pause(50);""", PAGE + "delete globalThis.Worker;")[
        "got"
    ] == ["new here"]


def test_what_breaks_down_is_told_and_the_next_is_answered(played):
    assert played(
        """Ringfence.engine.judge = () => { throw new Error("singular"); }; await ask("a");
            Ringfence.engine.judge = () => ({ verdict: "safe" }); await ask("c");""",
        PAGE + "delete globalThis.Worker;",
    )["got"] == ["Error: singular", "safe"]


def test_only_records_of_ones_own_travel(played):
    found = played("""const changed = { id: "b" }, plain = { id: "a" }, mine = { id: "my.x", mine: true };
      Ringfence.data = { ports: { a: plain, b: { id: "b" } }, leads: { "my.x": mine, l: {} } };
      const data = { ports: { a: plain, b: changed }, leads: Ringfence.data.leads };
      got.push(judging.request({ data, question: { from: "a", through: ["my.x", "l"], into: "b",
        own: "text" } }));""")
    assert found["got"] == [
        {
            "question": {"from": "a", "through": ["my.x", "l"], "into": "b"},
            "ports": {"b": {"id": "b"}},
            "leads": {"my.x": {"id": "my.x", "mine": True}},
        }
    ]
