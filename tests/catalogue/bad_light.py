"""Bad files where light meets wire."""

from .bad_case import case

# The messages are what is tested here: they stand unbroken, however long.
# fmt: off
LIGHT = [
    case([("connectors/round.yaml", "key: 90 deg", "light: 3\nkey: 90 deg")], """\
pinouts/leads/block.yaml:8:10: error[light-and-wire]
    'cold' joins light to 'a.ring', which passes none.
pinouts/leads/crossed.yaml:3:15: error[light-and-wire]
    'hot' joins light to 'a.tip', which passes none.
pinouts/leads/straight.yaml:8:10: error[light-and-wire]
    'cold' joins light to 'a.ring', which passes none.
pinouts/ports/desk-in.yaml:7:15: error[light-and-wire]
    'cold' passes light; circuit 'input' has it otherwise.
    defined at pinouts/circuits/input.yaml:1"""),
    case([("connectors/round.yaml", "key: 90 deg", "light: 4\nkey: 90 deg")], """\
pinouts/connectors/round.yaml:9:8: error[unknown-contact]
    '4' is no contact of 'round', so no light passes it.
    defined at pinouts/connectors/round.yaml:4"""),
    case([("cables/pair.yaml", "core: 80 mohm/m\n", "light: yes\n"), ("cables/pair.yaml", "current: 1..2 A\n", "")], """\
pinouts/leads/crossed.yaml:3:14: error[no-fibre]
    'hot' is a wire, but cable 'pair' has fibres only.
    defined at pinouts/cables/pair.yaml:1
pinouts/leads/crossed.yaml:3:34: error[no-fibre]
    'cold' is a wire, but cable 'pair' has fibres only.
    defined at pinouts/cables/pair.yaml:1
pinouts/leads/straight.yaml:7:8: error[no-fibre]
    'hot' is a wire, but cable 'pair' has fibres only.
    defined at pinouts/cables/pair.yaml:1
pinouts/leads/straight.yaml:8:9: error[no-fibre]
    'cold' is a wire, but cable 'pair' has fibres only.
    defined at pinouts/cables/pair.yaml:1
pinouts/leads/straight.yaml:9:11: error[no-fibre]
    'screen' is a wire, but cable 'pair' has fibres only.
    defined at pinouts/cables/pair.yaml:1"""),
    case([("cables/pair.yaml", "core: 80 mohm/m\n", "")], """\
pinouts/cables/pair.yaml:1:1: error[missing-key]
    this cable lacks the key 'core'; only one of fibres alone, `light: yes`, has none."""),
]
