"""Codes of one's own labels, made in the browser: texts that fill a code are module for module those of a
library, in every version and mask; shorter ones are read back. (The library puts a byte of noughts before the
padding, which the standard does not ask for; readers do not mind.)"""

import json

import pytest
import segno
from front import run, scripts

# bytes that fill versions 1 to 9 at level M, ISO/IEC 18004 table 7
FULL = [14, 26, 42, 62, 84, 106, 122, 152, 180]
SHORT = ["A", "mic lead 7", "XLR 12 #3", "Länge 3 m", "rack, 2 m & more"]
PADS = [0b11101100, 0b00010001]
BYTES = {1: 16, 2: 28, 3: 44}  # of data, in one block


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    file = tmp_path_factory.mktemp("codes") / "data.json"
    texts = [*("x" * n for n in FULL), *SHORT, "x" * 181]
    file.write_text(json.dumps({"texts": texts}))
    found = run(
        "Ringfence.texts.map((text) => [null, 0, 1, 2, 3, 4, 5, 6, "
        "7].map((mask) => Ringfence.qr.modules(text, 'M', mask)))",
        scripts("qr/code.js"),
        file,
    )
    return dict(zip(texts, found))


@pytest.mark.parametrize("count", FULL)
def test_module_for_module(made, count):
    best, *masked = made["x" * count]
    for mask, grid in enumerate(masked):
        code = segno.make("x" * count, error="m", mask=mask, mode="byte", boost_error=False, micro=False)
        assert grid == [list(map(int, row)) for row in code.matrix], f"mask {mask}, version {code.version}"
    assert best in masked


@pytest.mark.parametrize("text", SHORT)
def test_shorter_ones_are_read_back(made, text):
    _, grid, *_ = made[text]
    said = text.encode()
    version = (len(grid) - 17) // 4
    bits = f"0100{len(said):08b}{''.join(f'{one:08b}' for one in said)}0000"
    data = [int(bits[i : i + 8], 2) for i in range(0, len(bits), 8)]
    data += [PADS[i % 2] for i in range(BYTES[version] - len(data))]
    assert read(grid)[: len(data)] == data


def read(grid):
    """The bytes of a code of mask 0 and version 1 to 3, in the order they are laid out."""
    size, bits, up = len(grid), [], True
    corner = size - 7 if size > 21 else -9  # the middle of the one alignment pattern
    for right in (*range(size - 1, 6, -2), 5, 3, 1):
        for row in range(size - 1, -1, -1) if up else range(size):
            for col in (right, right - 1):
                edges = (
                    (row < 9 and col < 9)
                    or (row < 9 and col >= size - 8)
                    or (row >= size - 8 and col < 9)
                    or 6 in (row, col)
                )
                if not edges and max(abs(row - corner), abs(col - corner)) > 2:
                    bits.append(str(grid[row][col] ^ ((row + col) % 2 == 0)))
        up = not up
    return [int("".join(bits[i : i + 8]), 2) for i in range(0, len(bits) - 7, 8)]


def test_what_is_too_long_has_no_code(made):
    assert made["x" * 181] == [None] * 9


def test_links_of_one_s_own_module_for_module(tmp_path):
    """Level L, every version to 25 and every mask, each version filled to the last byte."""
    # ISO/IEC 18004 table 7
    room = [
        17,
        32,
        53,
        78,
        106,
        134,
        154,
        192,
        230,
        271,
        321,
        367,
        425,
        458,
        520,
        586,
        644,
        718,
        792,
        858,
        929,
        1003,
        1091,
        1171,
        1273,
    ]
    file = tmp_path / "data.json"
    file.write_text(json.dumps({"texts": ["x" * count for count in (*room, room[-1] + 1)]}))
    found = run(
        "Ringfence.texts.map((text) => [0, 1, 2, 3, 4, 5, 6, 7].map((mask) => Ringfence.qr.modules(text, "
        "'L', mask)))",
        scripts("qr/code.js"),
        file,
    )
    for count, masked in zip(room, found):
        for mask, grid in enumerate(masked):
            code = segno.make("x" * count, error="l", mask=mask, mode="byte", boost_error=False, micro=False)
            assert grid == [list(map(int, row)) for row in code.matrix], (
                f"mask {mask}, version {code.version}"
            )
    assert found[-1] == [None] * 8
