from generator.drawing import draw_chain

from . import seen


def lead(catalogue, id, end_in="a", end_out="b"):
    return catalogue.leads[id], end_in, end_out


def chain(catalogue, start, through, end, marks=()):
    return draw_chain(catalogue, catalogue.ports[start], through, catalogue.ports[end], marks)


def test_from_stands_above_the_leads_and_into_below(catalogue):
    drawn = chain(
        catalogue,
        "mic-dynamic-xlr",
        [lead(catalogue, "xlr-f-to-xlr-m-3m"), lead(catalogue, "xlr-f-to-xlr-m-pad-20-db")],
        "mixer-mic-in-p48-xlr",
    )
    tops = {words.words: words.top for words in seen.all_words(drawn)[::-1]}  # of equal words the upper one
    first = next(top for words, top in tops.items() if words.startswith("From:"))
    assert (
        first
        < tops["hot"]
        < tops["R1"]
        < next(top for words, top in tops.items() if words.startswith("Into:"))
    )
    assert "Lead 2, R1: resistor 680\xa0Ω (leg hot)" in tops


def test_both_devices_say_what_their_contacts_carry(catalogue):
    drawn = chain(
        catalogue, "mic-dynamic-xlr", [lead(catalogue, "xlr-f-to-635-ts-3-to-1")], "mixer-line-in-635-ts"
    )
    found = [words.words for words in seen.all_words(drawn)]
    assert {"hot", "cold", "screen", "signal", "common"} <= set(found)


def test_two_halves_may_meet_without_a_lead(catalogue):
    drawn = chain(catalogue, "mic-lavalier-two-wire-35", [], "camera-mic-in-35")
    assert "Through no lead" in [words.words for words in seen.all_words(drawn)]
    assert "touching: tip, ring and sleeve" in seen.titles(drawn)


def test_a_smaller_plug_meets_the_jack_where_it_lands(catalogue):
    # published, phone-plug-mating: in a three-contact jack a two-contact plug's sleeve
    # touches ring and sleeve
    leads = [lead(catalogue, "phone-635-ts-to-635-ts-3m")]
    assert "touching: tip, sleeve to ring and sleeve" in seen.titles(
        chain(catalogue, "guitar-pickup-635", leads, "mixer-line-in-635")
    )


def test_halves_that_do_not_fit_are_said_not_to(catalogue):
    drawn = chain(catalogue, "player-line-out-35", [], "mixer-line-in-635-ts")
    assert (
        "3.5 mm phone, three contacts (TRS) jack does not go into 6.35 mm phone, two contacts (TS) jack."
        in seen.described(drawn)
    )
    assert not any(title.startswith("touching") for title in seen.titles(drawn))


def test_marks_bring_out_only_what_they_name(catalogue):
    through = [lead(catalogue, "xlr-f-to-xlr-m-3m")]
    plain = seen.classes(chain(catalogue, "mic-dynamic-xlr", through, "mixer-mic-in-p48-xlr"))
    marked = seen.classes(
        chain(
            catalogue,
            "mic-dynamic-xlr",
            through,
            "mixer-mic-in-p48-xlr",
            ["from.2", "1.a.2", "1.hot", "into.3"],
        )
    )
    assert "rf-marked" not in plain
    drawn = chain(catalogue, "mic-dynamic-xlr", through, "mixer-mic-in-p48-xlr", ["from.2"])
    assert seen.classes(drawn)["rf-marked"] == 1
    assert marked["rf-marked"] >= 5  # three contacts, the joint of 2 with 2, and the wire


def test_an_end_that_is_not_used_says_so(catalogue):
    drawn = chain(
        catalogue, "mixer-line-out-xlr", [lead(catalogue, "two-xlr-f-to-xlr-m", "two")], "mixer-line-in-xlr"
    )
    assert any("not part of this connection: 1, 2, 3" in title for title in seen.titles(drawn))
    ends = {
        words.words: words.left
        for words in seen.all_words(drawn)
        if words.words in ("second output", "first output")
    }
    assert ends["second output"] < ends["first output"]  # the one in use comes first
