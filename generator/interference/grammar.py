"""The file that describes a run, declared: its keys, what they hold, how far each number may go. A number
beyond is refused by name.
"""

from __future__ import annotations

from generator.catalogue.problems import did_you_mean
from generator.catalogue.scalars import Choice, Name, Ref, Words
from generator.catalogue.shapes import Field, ListOf, MapOf, Record

from .guesses import GIVEN, UNITS
from .measure import Measure, OneOf
from .run import COLD, LIES, SCREENS, SOCKETS, SPARE
from .tables import Tables

POWERED = {  # what is written -> class of powering
    "earthed mains": "earthed",
    "two-pin mains": "insulated",
    "battery": "battery",
    "the lead": "battery",
    "unknown": "",
}
MAINS = {
    "230 V 50 Hz": (230.0, 50.0),
    "120 V 60 Hz": (120.0, 60.0),
    "100 V 50 Hz": (100.0, 50.0),
    "100 V 60 Hz": (100.0, 60.0),
}


LENGTH = Measure("m", "2 km", "the length of a run")
DISTANCE = Measure("m", "100 m", "the distance of a cable or thing near the run")
FAR = Measure("m", "100 km", "the distance of a transmitter")
AMPS = Measure("A", "1 MA", "what a mains cable carries")
WATTS = Measure("W", "1 MW", "the power of a transmitter")
TURNS = Measure("1", "500", "the turns of a coil")
ACROSS = Measure("m", "3 m", "the width of a coil")
VOLTS_READ = Measure("V", "400 V", "what stands between two cases")
AMPS_READ = Measure("A", "32 A", "what flows between two cases")
BOND = Measure("ohm", "10 ohm", "the resistance of a bond")
FERRITE = Measure("ohm", "20 kohm", "the resistance of a choke")
ASSUMED = {  # the most of each constant that a run may replace
    "ohm": "10 Mohm",
    "m": "100 m",
    "H/m": "10 uH/m",
    "1": "10",
    "T": "10 mT",
    "F": "1 uF",
    "m2": "0.1 m2",
    "deg": "90 deg",
    "dB": "160 dB",
}
_words, _yes_no = Words(), Choice(("yes", "no"))


def need(shape, help: str) -> Field:
    return Field(shape, help, required=True)


def grammar(tables: Tables) -> Record:
    """The shape of a run's file, with the ids of these tables."""
    device = {
        "powered": Field(Choice(tuple(POWERED)), "what it is powered from; by its kind if left out"),
        "contact-1": Field(
            Choice(("sound", "wanders")), "does the screen contact wander through the circuit inside"
        ),
    }
    units = {**UNITS, **GIVEN}
    return Record(
        {
            "name": Field(_words, "what to call it"),
            "mains": Field(Choice(tuple(MAINS)), "the mains; 230 V 50 Hz if left out"),
            "from": need(
                Record(
                    {"device": need(OneOf(tables.sources, "unknown-port", "source"), "what sends"), **device}
                ),
                "the sending device",
            ),
            "into": need(
                Record(
                    {"device": need(OneOf(tables.inputs, "unknown-port", "input"), "what hears"), **device}
                ),
                "the device it goes into",
            ),
            "sockets": Field(Choice(SOCKETS), "which mains sockets or which supply the two devices share"),
            "shares-with-dimmers": Field(_yes_no, "do dimmed lamps hang on the same supply"),
            "held": Field(_yes_no, "is the battery device held in the hand"),
            "measured": Field(
                Record(
                    {
                        "volts": Field(VOLTS_READ, "AC between the two cases before plugging"),
                        "amps": Field(AMPS_READ, "AC from case to case through the meter"),
                    }
                ),
                "what a meter read",
            ),
            "bond": Field(BOND, "a wire from case to case"),
            "transformer": Field(_yes_no, "is there an isolating transformer in the run"),
            "ferrite": Field(FERRITE, "a choke round the lead at the input, at the radio's frequency"),
            "leads": need(_Leads(tables), "the leads, in order"),
            "beside": Field(
                _many(
                    {
                        "cable": need(OneOf(tables.mains, "unknown-cable", "mains cable"), "what lies there"),
                        "load": Field(OneOf(tables.loads, "unknown-part", "load"), "what hangs on it"),
                        "amps": Field(AMPS, "what it carries, where that is known"),
                        "distance": Field(DISTANCE, "how far from the run; left out: taped together"),
                        "along": Field(LENGTH, "for how many metres; all of it if left out"),
                        "lies": Field(Choice(LIES), "alongside or crossing"),
                    }
                ),
                "mains cables near the run",
            ),
            "spare": Field(
                Record(
                    {
                        "lies": need(Choice(SPARE), "how the spare lead lies"),
                        "turns": need(TURNS, "how many turns"),
                        "across": need(ACROSS, "how wide"),
                        "distance": Field(DISTANCE, "from the mains cables and things named"),
                    }
                ),
                "lead that is not needed",
            ),
            "near": Field(
                _many(
                    {
                        "thing": need(OneOf(tables.things, "unknown-part", "thing"), "what stands there"),
                        "distance": need(DISTANCE, "from its middle to the run"),
                    }
                ),
                "transformers and motors near the run",
            ),
            "radio": Field(
                _many(
                    {
                        "what": need(
                            OneOf(tables.transmitters, "unknown-part", "transmitter"), "what transmits"
                        ),
                        "distance": need(FAR, "from the run"),
                        "watts": Field(WATTS, "where they are known"),
                    }
                ),
                "transmitters near the run",
            ),
            "assume": Field(_Assume(units), "better numbers for what is guessed"),
        }
    )


def _many(fields: dict[str, Field]) -> _ManyOf:
    return _ManyOf(Record(fields))


class _ManyOf(ListOf):
    """A list of records, not empty."""

    def __init__(self, record: Record):
        super().__init__(record, least=1)


class _Leads(_ManyOf):
    """A lead by its id in the catalogue, or by its cable and length."""

    def __init__(self, tables: Tables):
        super().__init__(
            Record(
                {
                    "lead": Field(Ref("leads"), "a lead of the catalogue"),
                    "cable": Field(OneOf(tables.cables, "unknown-cable", "cable"), "the cable it is made of"),
                    "length": Field(LENGTH, "how long it is"),
                    "screen": Field(Choice(SCREENS), "how its screen ends"),
                    "cold": Field(Choice(COLD), "where the second wire of a pair ends"),
                },
                one_of=(("lead", "cable"),),
            )
        )


class _Assume(MapOf):
    """Names of constants with their value."""

    def __init__(self, units: dict[str, str]):
        super().__init__(Words(), Name())
        object.__setattr__(self, "units", units)

    def check(self, node, name, context):
        checked = super().check(node, name, context)
        for key, value in checked.items() if checked else ():
            if key not in self.units:
                legal = f"{name} takes {', '.join(self.units)}"
                message = f"'{key}' is nothing that is guessed; {legal}.{did_you_mean(key, self.units)}"
                context.problems.add(node.keys[key], "unknown-parameter", message)
            else:
                unit = self.units[key]
                Measure(unit, ASSUMED[unit], f"the constant '{key}'", zero=True).check(
                    value, f"'{key}'", context
                )
        return checked
