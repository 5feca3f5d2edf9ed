"""What was published stays: an id that is gone is a fault until it is retired, and a rename does
all of it in one step."""

import pytest

from generator.catalogue import ever, load
from generator.catalogue.lint import lint
from generator.catalogue.rename import CannotRename, rename


def told(pinouts):
    return "\n".join(map(str, lint(pinouts)))


@pytest.fixture
def noted(pinouts):
    ever.note(pinouts, vars(load(pinouts)))
    return pinouts


def test_every_id_is_noted_once_and_lines_are_only_added(noted):
    before = (noted / "published.txt").read_text()
    assert "connectors/jack\n" in before and "leads/straight\n" in before and "circuits" not in before
    assert ever.note(noted, vars(load(noted))) == 0
    ids = {kind: [*getattr(load(noted), kind), f"a-{kind}"] for kind in ever.ADDRESSED}
    assert ever.note(noted, ids) == 4
    assert (noted / "published.txt").read_text().startswith(before)


def test_a_published_id_that_is_gone_is_a_fault_until_it_is_retired(noted, replace):
    number = ever.read(noted).index("leads/crossed") + 1
    (noted / "leads/crossed.yaml").unlink()
    replace("retired.yaml", "[straight, crossed]", "[straight]")
    assert f"""pinouts/published.txt:{number}:1: error[published-id-gone]
    'crossed' was published among the leads and is gone; put it back, or name its successor in retired.yaml.""" in told(
        noted
    )
    replace("retired.yaml", "{old-jack: jack}", "{old-jack: jack, crossed: straight}")
    assert "published-id-gone" not in told(noted)


@pytest.mark.parametrize("line", ["leads", "cables/pair", "leads/Big", "leads/a b", ""])
def test_a_line_that_names_nothing_is_a_fault(noted, line):
    with (noted / "published.txt").open("a") as file:
        file.write(f"{line}\n")
    assert f"error[bad-published-line]\n    '{line}' is not a kind and an id, such as ports/desk-in." in told(
        noted
    )


def test_a_rename_moves_the_file_what_refers_to_it_and_the_address(noted):
    before = load(noted)
    rename(noted, "straight", "plain")
    assert told(noted) == "" and not (noted / "leads/straight.yaml").exists()
    after = load(noted)
    assert after.leads["plain"].ends == before.leads["straight"].ends
    assert after.retired["straight"] == ("plain",) and after.retired["old-leads"] == ("plain", "crossed")


def test_a_rename_of_what_many_refer_to(noted):
    rename(noted, "jack", "big-jack")
    assert told(noted) == ""
    catalogue = load(noted)
    assert catalogue.retired["jack"] == catalogue.retired["old-jack"] == ("big-jack",)
    assert {port.connector for port in catalogue.ports.values()} <= set(catalogue.connectors)
    assert "jack" not in {port.connector for port in catalogue.ports.values()}


@pytest.mark.parametrize(
    "old, new, why",
    [
        (
            "straight",
            "crossed",
            "'crossed' is or was the id of something; an id is never used for a second thing.",
        ),
        (
            "straight",
            "old-jack",
            "'old-jack' is or was the id of something; an id is never used for a second thing.",
        ),
        ("straight", "Plain", "'Plain' is not an id; write lower-case words and digits joined by hyphens."),
        ("nothing", "plain", "there is no connector, assignment, port or lead 'nothing'."),
    ],
)
def test_what_cannot_be_renamed_changes_nothing(noted, old, new, why):
    before = {path: path.read_bytes() for path in noted.rglob("*") if path.is_file()}
    with pytest.raises(CannotRename) as refused:
        rename(noted, old, new)
    assert str(refused.value) == why
    assert {path: path.read_bytes() for path in noted.rglob("*") if path.is_file()} == before
