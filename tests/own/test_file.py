"""A device as a file, out of the browser and back: the same numbers, or the reason why not; and the command
line takes what the browser writes."""

import json
import random

import pytest
from front import run, scripts

from generator.catalogue import default_directory, load
from generator.catalogue.lint import lint
from generator.catalogue.published import as_data
from generator.own import Nonsense, changed, said

from .random_numbers import typed

LOADED = scripts(
    "ui/dom.js",
    "ui/words.js",
    "ui/catalogue.js",
    *(f"own/{name}.js" for name in ("quantity", "said", "apply", "keep", "devices", "yaml", "file")),
)
BACK = """%s.map(({ base, answers }, number) => { const { own } = Ringfence,
  { path, text } = own.yaml({ name: `Tom "the" mic: # ${number}`, base, answers }),
  { device, fault } = own.fromFile(text);
  return { path, text, fault: fault || null, again: device ? own.yaml(device).text : null,
    name: device ? device.name : null }; })"""
FILE = (
    "name: My microphone\n"
    "same_as: mic-electret-battery-xlr\n"
    "circuit:\n"
    "  main:\n"
    "    stands: {value: 63 V, evidence: your manual}\n"
)


@pytest.fixture(scope="module")
def catalogue():
    return load(default_directory())


@pytest.fixture(scope="module")
def data(catalogue, tmp_path_factory):
    published, file = as_data(catalogue), tmp_path_factory.mktemp("file") / "data.json"
    file.write_text(
        json.dumps(
            {
                "data": published,
                "manual": {
                    "questions": published["questions"],
                    "asks": {name: port["asks"] for name, port in published["ports"].items()},
                },
            }
        )
    )
    return file


@pytest.fixture(scope="module")
def devices(catalogue):
    """Of every class, with a few of its questions answered in a way that is understood."""
    draw, made = random.Random(11), []
    for port in catalogue.ports.values():
        answers = {}
        for ask in draw.sample(port.asks, min(3, len(port.asks))):
            question = catalogue.questions[ask.question]
            for text in (typed(draw, ask, question) for _ in range(40)):
                try:
                    if said(text, ask, question) and "<" not in text:
                        answers[ask.id] = text
                        break
                except Nonsense:
                    continue
        made.append({"base": port.id, "answers": answers})
    # sets a rating and leaves one unknown: no number says both
    made.append({"base": "line-out-phantom-protected-xlr", "answers": {"main.may-meet-phantom": "no"}})
    return made


def test_what_goes_out_comes_back(devices, data):
    for number, (device, told) in enumerate(
        zip(devices, run(BACK % json.dumps(devices), LOADED, data), strict=True)
    ):
        assert (told["fault"], told["name"]) == (None, f'Tom "the" mic: # {number}'), device
        assert sorted(told["again"].splitlines()) == sorted(told["text"].splitlines()), device


def test_what_goes_out_lints_and_is_the_same_record(catalogue, devices, data, tmp_path):
    for number, told in enumerate(run(BACK % json.dumps(devices), LOADED, data)):
        (tmp_path / f"own-{number}.yaml").write_text(told["text"], encoding="utf-8")
    assert lint(default_directory(), [tmp_path]) == []
    read = load(default_directory(), [tmp_path])
    for number, device in enumerate(devices):
        ours, theirs = (
            changed(catalogue.ports[device["base"]], device["answers"], catalogue.questions),
            read.ports[f"own-{number}"],
        )
        assert (theirs.network, theirs.sources, theirs.listeners, theirs.needs) == (
            ours.network,
            ours.sources,
            ours.listeners,
            ours.needs,
        ), device


@pytest.mark.parametrize(
    "text, why",
    [
        (
            FILE.replace("mic-electret-battery-xlr", "mic-of-nobody"),
            "The line same_as names no class that is known here.",
        ),
        (
            FILE.replace("mic-electret-battery-xlr", "__proto__"),
            "The line same_as names no class that is known here.",
        ),
        ("", "The line same_as names no class that is known here."),
        (
            FILE.replace("stands:", "colour:"),
            (
                'No question of this class has the answer "main colour: 63 V". The command line takes the '
                "file as it is."
            ),
        ),
        (
            FILE.replace("63 V", "4800 V"),
            (
                'No question of this class has the answer "main stands: 4800 V". The command line takes the '
                "file as it is."
            ),
        ),
        (
            FILE.replace("63 V", "<b>"),
            (
                'No question of this class has the answer "main stands: <b>". The command line takes the '
                "file as it is."
            ),
        ),
        (
            FILE.replace("circuit:", "circuit: !!python/object"),
            "Line 3 is not as this page writes it: circuit: !!python/object",
        ),
        (
            FILE.replace("your manual", "standard"),
            "Line 5 is not as this page writes it: stands: {value: 63 V, evidence: standard",
        ),
        (FILE + FILE, "Line 6 is not as this page writes it: name: My microphone"),
        ("x" * 9000, "That is too long to be the file of one device."),
    ],
)
def test_what_is_no_such_file_is_refused_with_the_line(data, text, why):
    assert run(f"Ringfence.own.fromFile({json.dumps(text)})", LOADED, data) == {"fault": why}


def test_a_comment_and_another_line_end_are_no_matter(data):
    text = "# mine\r\n" + FILE.replace("\n", "\r\n")
    told = run(f"Ringfence.own.fromFile({json.dumps(text)})", LOADED, data)
    assert told == {
        "device": {
            "name": "My microphone",
            "base": "mic-electret-battery-xlr",
            "answers": {"main.highest-volts-at-output": "63 V"},
        }
    }
