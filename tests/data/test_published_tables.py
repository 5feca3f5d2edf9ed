"""Who carries what, held against published tables. Each table is written out here as its source has it, not
derived from the catalogue; the id of the source in pinouts/sources.yaml stands beside it. What no page shows
is marked as practice or memory."""

import pytest

TABLES = {
    # aes14 with iec-60268-12, by way of xlr-wiring-tip (clauses not seen)
    "xlr-3-balanced": {"1": "screen", "2": "hot", "3": "cold"},
    # amplifier-manual-p51: the older order
    "xlr-3-contact-3-hot": {"1": "screen", "2": "cold", "3": "hot"},
    # line-equipment-manuals: signal to 2; ground to 3 and screen to 1, or 1 and 3 joined
    "xlr-3-unbalanced-two-core": {"1": "screen", "2": "signal", "3": "common"},
    "xlr-3-unbalanced": {"1": "common", "2": "signal", "3": "common"},
    # intercom-manual-p15; intercom-manual-two-channel; intercom-digital-manual-p19; intercom-custom-build
    "xlr-3-party-line": {"1": "common", "2": "bias", "3": "signal"},
    "xlr-3-party-line-two-channel": {"1": "common", "2": "line-1", "3": "line-2"},
    "xlr-3-party-line-direct-voltage-on-both": {"1": "common", "2": "line-positive", "3": "line-negative"},
    "xlr-3-party-line-custom-12-volt": {"1": "common", "2": "signal", "3": "bias"},
    # connectors-entry: 1 = 0 V, 4 = +12 V; lamps 3 = +30 V
    "xlr-4-dc-power": {"1": "common", "2": "spare-2", "3": "spare-3", "4": "supply"},
    "xlr-4-lighting-power": {"1": "common", "2": "spare-2", "3": "supply-30", "4": "supply"},
    # stereo-xlr-page: 1 screen, 2 L+, 3 L-, 4 R+, 5 R-
    "xlr-5-stereo": {"1": "screen", "2": "left", "3": "left-cold", "4": "right", "5": "right-cold"},
    # headset-xlr-5-note for 4 and 5 (two amplifier outputs); 1 to 3 are common practice
    "xlr-5-headset": {"1": "mic-common", "2": "mic", "3": "phones-common", "4": "left", "5": "right"},
    # lighting-manual-p328: 1 common, 2 data -, 3 data +, 4 and 5 the second link
    "xlr-5-lighting-data": {
        "1": "screen",
        "2": "data-minus",
        "3": "data-plus",
        "4": "second-data-4",
        "5": "second-data-5",
    },
    # recorder-manual-p55: like the three-contact XLR
    "mini-xlr-3-balanced": {"1": "screen", "2": "hot", "3": "cold"},
    # phone-compatibility-7-8-2-1 and phone-headset-spec: tip left, ring 1 right, ring 2
    # ground, sleeve microphone
    "phone-35-trrs-headset-lrgm": {"tip": "left", "ring1": "right", "ring2": "common", "sleeve": "mic"},
    # headset-orders-answer: the other order
    "phone-35-trrs-headset-lrmg": {"tip": "left", "ring1": "right", "ring2": "mic", "sleeve": "common"},
    # still-camera-av-page: two makers
    "phone-35-trs-camera-av-audio-tip": {"tip": "signal", "ring": "video", "sleeve": "common"},
    "phone-35-trs-camera-av-video-tip": {"tip": "video", "ring": "signal", "sleeve": "common"},
    # midi-hardware-page, midi-connectors-page: 4 source, 5 sink, 2 screen at the sender only, 1 and 3 unused
    "din-5-180-midi": {"4": "source", "5": "sink", "2": "screen"},
    "din-5-180-midi-receiver": {"4": "source", "5": "sink"},
    # timecode-connector-faq, camera-timecode-page: shared by all users; one camera has 5 V on 4
    "push-pull-5-timecode": {"1": "common", "2": "timecode-in", "5": "timecode-out"},
    "push-pull-5-timecode-camera-power": {
        "1": "common",
        "2": "timecode-in",
        "4": "supply",
        "5": "timecode-out",
    },
    # recorder-manual-p55: 1 and 2 ground, 3 charge only, 4 operate
    "push-pull-4-dc-recorder": {"1": "common", "2": "common", "3": "charge", "4": "supply"},
    # aes3-annex-d by way of aes3-category-cable-page: 4/5 first, XLR contact 2 to the odd contact, 3/6 second
    "rj45-digital": {"5": "hot", "4": "cold", "3": "second-hot", "6": "second-cold"},
    # four-wire-manual: 3 and 6 audio out, 4 and 5 audio in, plus on 3 and 4;
    # matrix-ports-manual-p23, seen from the matrix
    "rj45-four-wire": {"3": "send-hot", "6": "send-cold", "4": "return-hot", "5": "return-cold"},
    "rj45-matrix-port": {
        "1": "panel-data-plus",
        "2": "panel-data-minus",
        "3": "matrix-data-plus",
        "6": "matrix-data-minus",
        "5": "return-hot",
        "4": "return-cold",
        "7": "send-hot",
        "8": "send-cold",
    },
    # film-battery-article: 1 ground, 2 +8.4 V, 3 +12 V, 4 +16.8 V, 5 for special uses
    "xlr-5-film-battery": {
        "1": "common",
        "2": "supply-8",
        "3": "supply-12",
        "4": "supply-16",
        "5": "spare-5",
    },
    # xlr-uses-page: headphones ground, right, left; lighting data ground, minus, plus;
    # one older maker plus on 2
    "mini-xlr-3-headphones": {"1": "common", "2": "right", "3": "left"},
    "xlr-3-lighting-data": {"1": "screen", "2": "cold", "3": "hot"},
    "xlr-3-lighting-data-reversed": {"1": "screen", "2": "hot", "3": "cold"},
    # player-socket-table: left, right, ground and supply in the order 1, 2, 3, 4
    "phone-35-trrs-player-charging": {"tip": "left", "ring1": "right", "ring2": "common", "sleeve": "supply"},
    # contact-handset-plug-manual-p13: functions on 1, 2 and 4, common on 3
    "rj9-contact-inputs": {"1": "control-1", "2": "control-2", "3": "common", "4": "control-4"},
    # wired-trigger-page: tip shutter, ring half-press, sleeve ground
    "phone-35-trs-contacts": {"tip": "shutter", "ring": "focus", "sleeve": "common"},
    # din-microphone-page: microphone on 1, ground on 2
    "din-3-microphone": {"1": "signal", "2": "common"},
    # usb-a-table, usb-a-colours: +5 V, data minus, data plus, ground; usb-c-board-manual-p8: ground on 1 and
    # 12, supply on 4 and 9 of both rows
    "usb-a-digital": {"1": "supply", "2": "data-minus", "3": "data-plus", "4": "ground"},
    "usb-a-power": {"1": "supply", "2": "data-minus", "3": "data-plus", "4": "common"},
    # usb-a-table: the same four on the square plug; usb-micro-pins-page: 4 is open in the B plug, ground on 5
    "usb-b-digital": {"1": "supply", "2": "data-minus", "3": "data-plus", "4": "ground"},
    "usb-b-micro-digital": {"1": "supply", "2": "data-minus", "3": "data-plus", "5": "ground"},
    "usb-b-micro-power": {"1": "supply", "2": "data-minus", "3": "data-plus", "5": "common"},
    "usb-c-power": {
        **{
            f"{row}{number}": role
            for row in "ab"
            for number, role in ((1, "common"), (12, "common"), (4, "supply"), (9, "supply"))
        },
        "a5": "detect-1",
        "b5": "detect-2",
    },
    # modular-jack-rule: ring on 3, tip on 4, the rest reserved
    "rj11-line": {"3": "line-a", "4": "line-b"},
    # headset-xlr-4-notes: microphone screen, microphone, headphone return, headphone; xlr-5-table with
    # headset-xlr-5-note: 4 and 5 tied together
    "xlr-4-headset": {"1": "mic-common", "2": "mic", "3": "phones-common", "4": "phones"},
    "xlr-5-headset-ears-joined": {
        "1": "mic-common",
        "2": "mic",
        "3": "phones-common",
        "4": "phones",
        "5": "phones",
    },
    # two-contact-power-page: ground on 1 and volts on 2, elsewhere the other way round; camera-pinout-chart:
    # ground, +24 V, start and stop
    "push-pull-2-dc": {"1": "common", "2": "supply"},
    "push-pull-2-dc-reversed": {"1": "supply", "2": "common"},
    "push-pull-3-run-and-power": {"1": "common", "2": "supply", "3": "run"},
    # trigger-manual-p19: 12 V on the tip, ground on the sleeve; foot-switch-manual-p7: tip and
    # ring each to the sleeve
    "phone-35-ts-trigger": {"tip": "supply", "sleeve": "common"},
    "phone-635-trs-contacts": {"tip": "contact-1", "ring": "contact-2", "sleeve": "common"},
    # sidechain-manual-p10: return on the tip, send on the ring;
    # amplifier-terminals-manual-p14: hot, ground, cold
    "phone-635-trs-insert-ring-send": {"tip": "return", "ring": "send", "sleeve": "common"},
    "terminal-strip-3-ground-middle": {"1": "hot", "2": "screen", "3": "cold"},
}


@pytest.mark.parametrize("id", TABLES)
def test_the_contacts_are_those_of_the_published_table(catalogue, id):
    assert dict(catalogue.assignments[id].carries) == TABLES[id]


# aes59 by way of encyclopedia-d-sub-audio and interface-manual-p24: channel: plus, minus, ground
AES59 = {
    1: (24, 12, 25),
    2: (10, 23, 11),
    3: (21, 9, 22),
    4: (7, 20, 8),
    5: (18, 6, 19),
    6: (4, 17, 5),
    7: (15, 3, 16),
    8: (1, 14, 2),
}


def test_the_analogue_d_sub_is_complete(catalogue):
    carries = catalogue.assignments["d-sub-25-aes59-analogue"].carries
    for channel, contacts in AES59.items():
        assert [carries[str(contact)] for contact in contacts] == [
            f"hot-{channel}",
            f"cold-{channel}",
            f"screen-{channel}",
        ]
    assert len(carries) == len(set(carries.values())) == 8 * 3
    assert set(catalogue.connectors["d-sub-25"].contacts) - set(carries) == {"13"}


def test_the_digital_d_sub_keeps_the_groups_of_the_analogue_one(catalogue):
    # encyclopedia-d-sub-audio: outputs 1/2 .. 7/8 stand where channels 5 .. 8 do, inputs where 1 .. 4 do
    carries = catalogue.assignments["d-sub-25-aes59-digital"].carries
    for channel, pair in {
        5: "out-1-2",
        6: "out-3-4",
        7: "out-5-6",
        8: "out-7-8",
        1: "in-1-2",
        2: "in-3-4",
        3: "in-5-6",
        4: "in-7-8",
    }.items():
        assert [carries[str(contact)] for contact in AES59[channel]] == [
            f"{pair}-plus",
            f"{pair}-minus",
            f"{pair}-screen",
        ]


def test_the_rival_d_sub_has_inputs_and_outputs_where_its_source_has_them(catalogue):
    # encyclopedia-d-sub-audio, video-server-d-sub-table: inputs plus on 1-4, minus on 14-17, outputs plus on
    # 5-8, minus on 18-21, ground on 10, 12, 13, 22-25
    carries = catalogue.assignments["d-sub-25-digital-rival"].carries
    assert {int(contact) for contact, role in carries.items() if role.startswith("in-")} == {
        *range(1, 5),
        *range(14, 18),
    }
    assert {int(contact) for contact, role in carries.items() if role.startswith("out-")} == {
        *range(5, 9),
        *range(18, 22),
    }
    assert {int(contact) for contact, role in carries.items() if role.endswith("-plus")} == {*range(1, 9)}
    assert {int(contact) for contact, role in carries.items() if role == "ground"} == {
        10,
        12,
        13,
        *range(22, 26),
    }
    assert all(carries[str(n + 13)] == carries[str(n)].replace("plus", "minus") for n in range(1, 9))
    assert len(carries) == 23


def test_midi_on_a_small_plug_is_the_din_one_in_two_orders(catalogue):
    # trs-midi-page: type A is tip = DIN 5, ring = DIN 4, sleeve = DIN 2; type B swaps tip and ring
    din = catalogue.assignments["din-5-180-midi"].carries
    a, b = (catalogue.assignments[f"phone-35-trs-midi-type-{kind}"].carries for kind in "ab")
    assert (a["tip"], a["ring"], a["sleeve"]) == (din["5"], din["4"], din["2"])
    assert (b["tip"], b["ring"], b["sleeve"]) == (din["4"], din["5"], din["2"])


def test_lighting_data_runs_against_the_sense_of_audio(catalogue):
    # lighting-manual-p328 against aes14: data minus stands where audio is hot
    assert catalogue.assignments["xlr-5-lighting-data"].carries["2"] == "data-minus"
    assert catalogue.assignments["xlr-3-balanced"].carries["2"] == "hot"


def test_what_is_contested_is_not_settled_in_silence(catalogue):
    # usb-c-analogue-post gives left on D+, memory says D-: the general record names no side
    roles = set(catalogue.assignments["usb-c-analogue"].carries.values())
    assert not roles & {"left", "right", "mic"}
    assert catalogue.assignments["usb-c-analogue-left-on-plus"].carries["a6"] == "left"
    # usb-c-audio-switch-datasheet: DP_R and DN_L, R for the right and L for the left channel; the
    # phone follows the plug
    usual = catalogue.assignments["usb-c-analogue-left-on-minus"].carries
    assert (usual["a6"], usual["b6"], usual["a7"], usual["b7"]) == ("right", "right", "left", "left")
    for port in ("phone-usb-c-analogue", "headset-usb-c-analogue"):
        assert catalogue.ports[port].contacts["a7"] == "left"
    # trs-midi-page says only that the two-contact variant exists
    assert all(
        role.startswith("unknown") for role in catalogue.assignments["phone-35-ts-midi"].carries.values()
    )
