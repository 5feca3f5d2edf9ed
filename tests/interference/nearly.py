"""How near a worked number must come."""

import pytest

NEAR = 0.005  # of a value, where nothing else is said
DB = 0.06  # of a level


def near(value, share=NEAR):
    return pytest.approx(value, rel=share)


def level(value, dbs=DB):
    return pytest.approx(value, abs=dbs)
