"""Lint takes whatever it is given: some hundred spoilt files of the real catalogue, and proof that
a bad end would be seen.

`python -m tests.spoilt` tries more."""

from dataclasses import replace

import pytest

from generator.catalogue.meaning import leads
from tests.spoilt import __main__ as command
from tests.spoilt import text, tree
from tests.spoilt.complaints import complaints
from tests.spoilt.held import MADE, Held, Mutant

ID = "banana-4-pair-to-banana-4-pair"
SPOILT = Mutant("leads", ID, b"name: Lead\nform: '" + b"so " * 200 + b"'\n")


@pytest.fixture(scope="module")
def held(tmp_path_factory):
    return Held(tmp_path_factory.mktemp("held"))


def sound(held, more=""):
    return Mutant("leads", ID, f"{held.texts['leads', ID]}{more}".encode())


@pytest.fixture(scope="module")
def spoiler(held):
    return command.Spoiler(held, seed=20261130)


def test_some_hundred_spoilt_files(held, spoiler, record_property):
    wrong, clean = [], 0
    for number in range(250):
        mutant = spoiler.mutant(number)
        right, faults = command.tried(held, mutant, whole=number % 125 == 0)
        clean += right
        wrong += [f"{number} {mutant.name}: {fault}" for fault in faults]
    assert wrong == []
    assert 20 < clean < 150, "some are still right, most are not"
    record_property("told", f"lint took 250 spoilt files, {clean} of them still right")


def test_a_mutant_is_made_again_by_its_number_and_all_ways_are_used(spoiler):
    mutants = [spoiler.mutant(number) for number in range(1000)]
    assert mutants[765] == spoiler.mutant(765)
    used = {way for mutant in mutants for way in mutant.how}
    assert used == {"made", *(way.__name__ for way in (*text.WAYS, *tree.WAYS))}
    assert {mutant.kind for mutant in mutants} == set(command.KINDS)


@pytest.mark.parametrize("made", MADE)
@pytest.mark.parametrize(
    "kind, id", [("ports", "active-di-out-xlr"), ("sources", "sources"), ("published", "published")]
)
def test_what_is_no_file_is_one_fault(held, kind, id, made):
    mutant = Mutant(kind, id, b"", made=made)
    found = held.faults(mutant)
    assert complaints(mutant, found) == []
    assert [fault.rule for fault in found if fault.path == mutant.name] == ["not-a-file"]


def test_an_untouched_file_is_free_of_faults_and_still_linted(held):
    for record, whole in list(held.texts.items())[::40]:
        assert command.tried(held, Mutant(*record, whole.encode()), whole=False) == (True, [])


def test_an_exception_is_noticed(held, monkeypatch):
    monkeypatch.setattr(leads, "_nodes", lambda tree: 1 / 0)
    assert command.tried(held, sound(held))[1][0].startswith(
        "ZeroDivisionError: division by zero at test_spoilt.py:"
    )


def test_what_never_ends_is_noticed(held, monkeypatch):
    def never(tree):
        while True:
            pass

    monkeypatch.setattr(leads, "_nodes", never)
    monkeypatch.setattr(command, "TIME", 0.05)
    assert command.tried(held, sound(held))[1][0].startswith("TooLong: more than 0.05 s at ")


def test_what_the_whole_catalogue_says_otherwise_is_noticed(held, monkeypatch):
    alike = sound(held, f"looks_like: {ID}\n")
    assert command.tried(held, alike, whole=True)[1] == []
    monkeypatch.setattr(held, "_touched", lambda *_: set())
    assert [one.partition("\n")[0] for one in command.tried(held, alike, whole=True)[1]] == [
        f"only in the whole catalogue: pinouts/leads/{ID}.yaml:20:13: error[looks-like-itself]"
    ]


@pytest.mark.parametrize(
    "changed, told",
    [
        ({"path": "/etc/passwd"}, "no file or no rule of ours"),
        ({"rule": "no-rule"}, "no file or no rule of ours"),
        ({"line": 0}, "there is no line 0 in the file"),
        ({"line": 9}, "there is no line 9 in the file"),
        ({"message": "'so\nso' is not it."}, "not one plain line"),
        ({"message": "'\u202eso' is not it."}, "not one plain line"),
        ({"message": "so, " * 1100}, "not one plain line"),
        ({"message": f"'{'so ' * 200}' is not it."}, "a value is echoed at length"),
    ],
)
def test_a_bad_fault_is_noticed(held, changed, told):
    found = held.faults(SPOILT)
    assert complaints(SPOILT, found) == []
    fault = next(fault for fault in found if fault.path == SPOILT.name)
    assert any(one.startswith(told) for one in complaints(SPOILT, [*found, replace(fault, **changed)]))


def test_it_is_noticed_when_the_other_file_s_fault_is_not_told(held):
    assert complaints(SPOILT, [fault for fault in held.faults(SPOILT) if "bystander" not in fault.path]) == [
        "the other file's fault is not told"
    ]
