"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.upkeep = Ringfence.upkeep || {};

/* A QR code of any text, after ISO/IEC 18004: bytes, level M, versions 1 to 9. The build makes its codes with a library; one's own label is
   written after the build, with no network, so the phone has to make its own. The tests hold it to that library, module for module. */
(function (upkeep) {
  // By version: error-correction bytes of a block, then how many blocks of how many data bytes; centres of the alignment patterns.
  const BLOCKS = [[10, [1, 16]], [16, [1, 28]], [26, [1, 44]], [18, [2, 32]], [24, [2, 43]], [16, [4, 27]], [18, [4, 31]], [22, [2, 38], [2, 39]], [22, [3, 36], [2, 37]]];
  const CENTRES = [[], [6, 18], [6, 22], [6, 26], [6, 30], [6, 34], [6, 22, 38], [6, 24, 42], [6, 26, 46]];
  const MASKS = [(r, c) => (r + c) % 2, (r) => r % 2, (r, c) => c % 3, (r, c) => (r + c) % 3, (r, c) => (Math.floor(r / 2) + Math.floor(c / 3)) % 2,
    (r, c) => (r * c) % 2 + (r * c) % 3, (r, c) => ((r * c) % 2 + (r * c) % 3) % 2, (r, c) => ((r + c) % 2 + (r * c) % 3) % 2];

  const POWERS = [1], LOGS = [];
  for (let i = 0; i < 255; i++) {
    LOGS[POWERS[i]] = i;
    POWERS.push(POWERS[i] * 2 ^ (POWERS[i] > 127 ? 0x11d : 0));
  }
  const product = (a, b) => (a && b ? POWERS[(LOGS[a] + LOGS[b]) % 255] : 0);

  /* Reed-Solomon: the remainder after division by (x - 1)(x - 2)(x - 4) ... */
  function corrections(data, count) {
    let divisor = [1];
    for (let i = 0; i < count; i++) divisor = [...divisor, 0].map((one, k) => one ^ product(k ? divisor[k - 1] : 0, POWERS[i]));
    const left = [...data, ...new Array(count).fill(0)];
    data.forEach((_, i) => { const lead = left[i]; divisor.forEach((one, k) => { left[i + k] ^= product(one, lead); }); });
    return left.slice(data.length);
  }

  const room = ([, ...groups]) => groups.reduce((sum, [count, size]) => sum + count * size, 0);

  /* The bytes in the order they are laid out, data then corrections, each taken from the blocks in turn. */
  function laid(bytes, version) {
    const [ec, ...groups] = BLOCKS[version - 1], size = room(BLOCKS[version - 1]);
    const bits = [0, 1, 0, 0, ...[...Array(8).keys()].map((i) => bytes.length >> (7 - i) & 1), ...bytes.flatMap((one) => [...Array(8).keys()].map((i) => one >> (7 - i) & 1)), 0, 0, 0, 0];
    const data = [...Array(bits.length / 8).keys()].map((i) => bits.slice(8 * i, 8 * i + 8).reduce((sum, bit) => sum * 2 + bit, 0));
    while (data.length < size) data.push((data.length - bytes.length) % 2 ? 17 : 236);
    const blocks = groups.flatMap(([count, length]) => Array.from({ length: count }, () => length));
    let at = 0;
    const parts = blocks.map((length) => data.slice(at, at += length)), checks = parts.map((part) => corrections(part, ec));
    const inTurn = (rows) => [...Array(Math.max(...rows.map(({ length }) => length))).keys()].flatMap((i) => rows.filter((row) => i < row.length).map((row) => row[i]));
    return [...inTurn(parts), ...inTurn(checks)];
  }

  /* The remainder of value times 2^bits by a generator. */
  function remainder(value, bits, generator) {
    let left = value << bits;
    for (let i = Math.floor(Math.log2(left || 1)); i >= bits; i--) if (left >> i & 1) left ^= generator << (i - bits);
    return left;
  }

  /* Rows of 0 and 1 without the quiet zone; null for a text that is too long. A mask may be asked for; else the one of least penalty. */
  upkeep.qr = function (text, asked = null) {
    const bytes = [...new TextEncoder().encode(text)], version = BLOCKS.findIndex((one) => bytes.length + 2 <= room(one)) + 1;
    if (!version) return null;
    const all = (asked === null ? [...MASKS.keys()] : [asked]).map((mask) => drawn(laid(bytes, version), version, mask));
    return all.reduce((best, one) => (penalty(one) < penalty(best) ? one : best));
  };

  function drawn(bytes, version, mask) {
    const size = 17 + 4 * version, grid = Array.from({ length: size }, () => new Array(size).fill(null));
    const ring = (row, col, radius, dark) => { for (let r = -radius; r <= radius; r++) for (let c = -radius; c <= radius; c++) if (grid[row + r]?.[col + c] !== undefined) grid[row + r][col + c] = Number(dark(Math.max(Math.abs(r), Math.abs(c)))); };
    for (const [row, col] of [[3, 3], [3, size - 4], [size - 4, 3]]) ring(row, col, 4, (far) => far !== 2 && far !== 4);
    const centres = CENTRES[version - 1], last = centres[centres.length - 1];
    for (const row of centres) for (const col of centres) if (![`6 6`, `6 ${last}`, `${last} 6`].includes(`${row} ${col}`)) ring(row, col, 2, (far) => far !== 1);
    for (let i = 8; i < size - 8; i++) grid[6][i] = grid[i][6] = Number(i % 2 === 0);
    format(grid, size, mask);
    if (version > 6) numbered(grid, size, version);
    let bit = 0;
    for (let right = size - 1, up = true; right > 0; right -= 2, up = !up) {
      if (right === 6) right = 5;
      for (let i = 0; i < size; i++) {
        for (const col of [right, right - 1]) {
          const row = up ? size - 1 - i : i;
          if (grid[row][col] !== null) continue;
          grid[row][col] = (bytes[bit >> 3] >> (7 - bit % 8) & 1) ^ Number(MASKS[mask](row, col) === 0);
          bit += 1;
        }
      }
    }
    return grid;
  }

  /* Level M is 00; fifteen bits twice, and the module that is always dark. */
  function format(grid, size, mask) {
    const bits = (mask << 10 | remainder(mask, 10, 0x537)) ^ 0x5412, at = (i) => bits >> i & 1;
    for (let i = 0; i < 15; i++) {
      grid[i < 6 ? i : i < 8 ? i + 1 : size - 15 + i][8] = at(i);
      grid[8][i < 8 ? size - 1 - i : i < 9 ? 7 : 14 - i] = at(i);
    }
    grid[size - 8][8] = 1;
  }

  function numbered(grid, size, version) {
    const bits = version << 12 | remainder(version, 12, 0x1f25);
    for (let i = 0; i < 18; i++) grid[Math.floor(i / 3)][size - 11 + i % 3] = grid[size - 11 + i % 3][Math.floor(i / 3)] = bits >> i & 1;
  }

  /* What makes a code hard to read: runs, squares, look-alikes of the corners, more dark than light. */
  function penalty(grid) {
    const size = grid.length, columns = grid.map((_, c) => grid.map((row) => row[c])), lines = [...grid, ...columns].map((line) => line.join(""));
    const runs = lines.reduce((sum, line) => sum + (line.match(/0{5,}|1{5,}/g) || []).reduce((all, run) => all + run.length - 2, 0), 0);
    const corners = lines.reduce((sum, line) => sum + 40 * (line.match(/(?=10111010000|00001011101)/g) || []).length, 0);
    let squares = 0;
    for (let r = 1; r < size; r++) for (let c = 1; c < size; c++) if (grid[r][c] === grid[r - 1][c] && grid[r][c] === grid[r][c - 1] && grid[r][c] === grid[r - 1][c - 1]) squares += 3;
    const dark = grid.flat().filter(Boolean).length / (size * size);
    return runs + corners + squares + 10 * Math.floor(Math.abs(dark - 0.5) * 20);
  }
})(Ringfence.upkeep);
