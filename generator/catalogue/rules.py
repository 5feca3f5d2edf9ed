"""Every rule a catalogue is held against: id -> what it asks. The id stands in each message and is an
anchor in the manual."""

RULES = {
    # files and YAML
    "no-catalogue": "The directory given must exist and hold YAML files.",
    "bad-file-name": "A file is named `id.yaml`: lower-case words and digits joined by single hyphens.",
    "stray-file": "YAML files stand in the folder of their kind, or are sources.yaml or retired.yaml.",
    "empty-file": "A file holds at least one key.",
    "syntax": "A file is UTF-8 YAML.",
    "not-a-file": "What is named like a file is one: no folder, no link that leads nowhere, no device.",
    "too-large": "A file has no more than 500 kB.",
    "too-deep": "Maps and lists stand at most 40 deep in each other.",
    "hidden-character": "No control, zero-width or direction-changing characters: nobody would see them.",
    "alias": "No YAML aliases; `same_as` says the same where readers can see it.",
    "duplicate-key": "A key stands once in a map.",
    "same-name": "Two records of one kind have different names; readers choose by name.",
    "id-taken": "An id is used once among connectors, assignments, ports and leads.",
    # shape
    "unknown-key": "Only the keys of a kind of file may stand in it.",
    "missing-key": "Required keys are there.",
    "wrong-type": "Text, list or map, as the key asks.",
    "empty-value": "A key that is written has a value.",
    "bad-choice": "A word from a closed list is one of that list.",
    "bad-name": "Names of parts, nodes, joins and the like are lower-case words joined by hyphens.",
    "too-few": "A list or map has as many items as it needs.",
    "too-many": "A list has no more items than it may.",
    "one-of": "Exactly one of several keys is there.",
    "bad-quantity": "A quantity is a number and unit, a range, a tolerance or `unknown`.",
    "wrong-unit": "A quantity has the unit its key asks for.",
    "non-positive": "Resistances, capacitances, inductances and sizes are above zero.",
    "implausible": "A quantity is within what things of its kind have, or says `confirmed:` and why.",
    "not-unknown": "What the circuit needs to be solved is known.",
    "bad-number": "A number is finite and within its bounds.",
    "bad-coupling": "A coupling coefficient lies between 0 and 1, both excluded.",
    # evidence
    "bad-evidence": "Evidence is one of the five grades, or `your manual` in a file of one's own.",
    "missing-cite": "`standard` and `published` name their source.",
    "bad-date": "A date is a real day, written 2026-11-25, and not yet to come.",
    # references
    "unknown-connector": "The connector named exists.",
    "unknown-assignment": "The assignment named exists.",
    "unknown-circuit": "The circuit named exists.",
    "unknown-cable": "The cable named exists.",
    "unknown-port": "The port named exists.",
    "unknown-lead": "The lead named exists.",
    "unknown-source": "The source cited is in sources.yaml.",
    "unknown-question": "The question asked is in questions.yaml.",
    "retired-reference": "Nothing refers to a retired id.",
    "same-as-cycle": "`same_as` does not lead back to itself.",
    "unknown-instance": "`same_as` in a port's circuit names another instance of that port.",
    # connectors
    "wrong-half": "A connector has the halves of its shape.",
    "unknown-half": "The half named is one the connector has.",
    "unknown-contact": "The contact named is one the connector has.",
    "missing-contact": "Every contact has its place.",
    "wrong-face": "Contacts stand at angle and radius on a round face, at x and y on a rectangular one.",
    "repeated": "A list of different things names each once.",
    "segments-overlap": "Segments of a plug do not overlap.",
    "segments-unordered": "Segments of a plug stand in the order of the contacts, from the tip back.",
    "spring-off-segment": (
        "With the plug of its own family home, a spring touches its own segment and nothing else."
    ),
    "no-silhouette": "Every half of a connector has a side view, on a cable or in a panel.",
    "borrowed-body": "A side view taken from another connector is one that connector has itself.",
    "no-key": "A connector whose keyway one sees says where its key stands.",
    "no-key-form": "A key has its form on every half: a ridge in one is a slot in the other.",
    "not-its-assignment": "The assignments one meets first are the connector's own.",
    # circuits
    "unknown-parameter": "The parameter named is one the circuit has.",
    "borrowed-grade": (
        "A cable's current has evidence of its own where the record is `standard` or `published`."
    ),
    "unused-parameter": "A parameter is used.",
    "reserved-name": "Parameters are not called like keys of an instance, nor inner nodes like a role.",
    "unused-role": "A role of a circuit is touched by a part.",
    "unknown-part": "The part named exists.",
    "wrong-part": "The part named is of a kind that can do this.",
    "unknown-node": "A node listened to, driven or limited is touched by a part.",
    "dangling-node": "An inner node is touched more than once.",
    "joined-to-itself": "A part stands between two different nodes.",
    "unknown-supply": "A supply named by a part is declared.",
    "unused-supply": "A declared supply feeds a part or turns on a source.",
    "wrong-supply": "A source is turned on by a supply of the style drive, an emf by another.",
    "stiff-output": "What a source puts on its output has some resistance on its way.",
    "unasked-reversal": (
        "What takes power says what it stands with plus and minus swapped, or that this is unknown."
    ),
    "lone-skew": "`skew` and `match` come together.",
    "unasked-number": (
        "A number that decides verdicts is a parameter a manual is asked for, or the circuit says under "
        "`unasked` why none tells it."
    ),
    "needless-unasked": "What stands under `unasked` decides verdicts and is asked for nowhere.",
    # ports
    "wrong-connector": "A port's assignment is one for the port's connector.",
    "note-against-assignment": (
        "What a port's note says of its order or contacts agrees with its assignment's grade."
    ),
    "unknown-role": "A role named exists.",
    "unmapped-role": "Every role of a circuit is a role of the port's assignment.",
    "same-channel": "A channel is named once in a port.",
    "supply-differs": "A supply shared by two instances is the same in both.",
    # leads
    "unknown-end": "The end named is one the lead has.",
    "unknown-join": "The join named is one the lead has.",
    "joined-twice": "A contact or node is in one join.",
    "pointless-join": "A join without a cable joins two things.",
    "unjoined-end": "Every end of a lead is joined to something.",
    "no-screen": "A lead with a screen is made of a cable that has one.",
    "light-and-wire": "What passes light is joined to nothing that carries current, in leads and in devices.",
    "no-fibre": "What passes light runs in a cable with fibres, and what carries current in one with wires.",
    "nothing-enters": "What a converter's input is like hears something.",
    "nothing-leaves": "What a converter's output is like sends something, or `only_to` says what asks it to.",
    "does-not-mate": "The usual partner of an end fits it.",
    "not-mutual": "Leads that look alike say so of each other.",
    "looks-like-itself": "A lead names other leads it looks like.",
    "different-ends": "Leads that look alike have the same ends.",
    # retired ids
    "published-id-gone": "An id that was ever published is in use or retired.",
    "bad-published-line": "A line of published.txt is a kind and an id.",
    "retired-alive": "A retired id is not in use.",
    "retired-target": "A retired id leads to a live one.",
    "retired-chain": "A retired id leads to its successor in one hop.",
}
