/* A text as a QR code (ISO/IEC 18004): bytes, error correction L to version 25 (links: long) or M to version 9 (tags: they get dirty). The build makes
   its codes with a library; a label or a link of one's own is written after the build, without a network. Tables 7 and 9 of the standard, from memory;
   the tests hold every version and mask to that library. */

const QUIET = 4,
  SVG = "http://www.w3.org/2000/svg"; // QUIET: modules of white around it
// By level: what stands for it in the format; check bytes of a block and number of blocks, by version.
const LEVELS = {
  L: {
    mark: 1,
    checks: [
      7, 10, 15, 20, 26, 18, 20, 24, 30, 18, 20, 24, 26, 30, 22, 24, 28, 30, 28, 28, 28, 28, 30, 30, 26,
    ],
    blocks: [1, 1, 1, 1, 1, 2, 2, 2, 2, 4, 4, 4, 4, 4, 6, 6, 6, 6, 7, 8, 8, 9, 9, 10, 12],
  },
  M: { mark: 0, checks: [10, 16, 26, 18, 24, 16, 18, 22, 22], blocks: [1, 1, 1, 2, 2, 4, 4, 4, 5] },
};
const MASKS = [
  (x, y) => (x + y) % 2,
  (x, y) => y % 2,
  (x) => x % 3,
  (x, y) => (x + y) % 3,
  (x, y) => (Math.floor(x / 3) + Math.floor(y / 2)) % 2,
  (x, y) => ((x * y) % 2) + ((x * y) % 3),
  (x, y) => (((x * y) % 2) + ((x * y) % 3)) % 2,
  (x, y) => (((x + y) % 2) + ((x * y) % 3)) % 2,
];

/* Powers of 2 in GF(256) over x^8 + x^4 + x^3 + x^2 + 1. */
const POWERS = [1],
  LOGS = [];
for (let i = 0; i < 255; i++) {
  LOGS[POWERS[i]] = i;
  POWERS.push((POWERS[i] << 1) ^ (POWERS[i] & 128 ? 0x11d : 0));
}
const times = (a, b) => (a && b ? POWERS[(LOGS[a] + LOGS[b]) % 255] : 0);

/* The modules of a code, rows of 0 and 1 without the quiet zone, or null where the text is too long. A mask may be asked for; else the one of least
   penalty. */
export function modules(text, of, mask = null) {
  const level = LEVELS[of],
    bytes = [...new TextEncoder().encode(text)],
    version = 1 + level.checks.findIndex((_, at) => bytes.length <= room(level, at + 1));
  if (!version) return null;
  const size = 17 + 4 * version,
    grid = Array.from({ length: size }, () => Array(size).fill(null));
  fixed(grid, version);
  const free = grid.map((row) => row.map((one) => one === null));
  fill(grid, bits(bytes, level, version));
  const tried = (mask === null ? MASKS.map((_, number) => number) : [mask]).map((number) =>
    masked(grid, free, level, number),
  );
  return tried.reduce((best, one) => (penalty(one) < penalty(best) ? one : best));
}

/* Bytes a version holds in all: its modules without those that are fixed. */
function whole(version) {
  const sides = version === 1 ? 0 : Math.floor(version / 7) + 2;
  const modules =
    (16 * version + 128) * version +
    64 -
    (sides ? (25 * sides - 10) * sides - 55 : 0) -
    (version >= 7 ? 36 : 0);
  return Math.floor(modules / 8);
}

const held = ({ checks, blocks }, version) => whole(version) - checks[version - 1] * blocks[version - 1];
const room = (level, version) => held(level, version) - (version < 10 ? 2 : 3); // mode and count take 12 or 20 bits

/* All bits in the order they are laid: data and check bytes, block by block, one of each in turn. */
function bits(bytes, level, version) {
  const size = held(level, version),
    stream = [],
    put = (value, count) => {
      for (let i = count - 1; i >= 0; i--) stream.push((value >> i) & 1);
    };
  put(4, 4);
  put(bytes.length, version < 10 ? 8 : 16);
  bytes.forEach((one) => put(one, 8));
  put(0, Math.min(4, 8 * size - stream.length));
  while (stream.length % 8) stream.push(0);
  const data = [];
  for (let i = 0; i < stream.length; i += 8) data.push(parseInt(stream.slice(i, i + 8).join(""), 2));
  for (let pad = 0xec; data.length < size; pad ^= 0xec ^ 0x11) data.push(pad);
  const count = level.blocks[version - 1],
    checks = level.checks[version - 1],
    short = Math.floor(size / count),
    long = size % count;
  const blocks = Array.from({ length: count }, (_, i) =>
    data.slice(
      i * short + Math.max(0, i - (count - long)),
      (i + 1) * short + Math.max(0, i + 1 - (count - long)),
    ),
  );
  const ends = blocks.map((block) => remainder(block, checks)),
    laid = [];
  for (let i = 0; i <= short; i++)
    blocks.forEach((block) => {
      if (i < block.length) laid.push(block[i]);
    });
  for (let i = 0; i < checks; i++) ends.forEach((end) => laid.push(end[i]));
  return laid.flatMap((byte) => Array.from({ length: 8 }, (_, i) => (byte >> (7 - i)) & 1));
}

/* The check bytes of a block: what is left of it after division by (x - 1)(x - 2)(x - 4) ... */
function remainder(block, checks) {
  let divisor = [1];
  for (let i = 0; i < checks; i++)
    divisor = [...divisor, 0].map((one, at) => one ^ (at ? times(divisor[at - 1], POWERS[i]) : 0));
  const left = [...block, ...Array(checks).fill(0)];
  for (let i = 0; i < block.length; i++)
    if (left[i]) {
      const factor = left[i];
      divisor.forEach((one, at) => {
        left[i + at] ^= times(one, factor);
      });
    }
  return left.slice(block.length);
}

/* Finders, timing, alignment, and room for what tells the format and the version. */
function fixed(grid, version) {
  const size = grid.length,
    set = (x, y, dark) => {
      if (x >= 0 && y >= 0 && x < size && y < size) grid[y][x] = Number(dark);
    };
  for (let i = 0; i < size; i++) {
    set(i, 6, i % 2 === 0);
    set(6, i, i % 2 === 0);
  }
  for (const [cx, cy] of [
    [3, 3],
    [size - 4, 3],
    [3, size - 4],
  ]) {
    for (let dy = -4; dy <= 4; dy++)
      for (let dx = -4; dx <= 4; dx++) {
        const far = Math.max(Math.abs(dx), Math.abs(dy));
        set(cx + dx, cy + dy, far !== 2 && far !== 4);
      }
  }
  const at = places(version, size);
  for (const x of at)
    for (const y of at) {
      if ((x === 6 && y === 6) || (x === 6 && y === size - 7) || (x === size - 7 && y === 6)) continue;
      for (let dy = -2; dy <= 2; dy++)
        for (let dx = -2; dx <= 2; dx++) set(x + dx, y + dy, Math.max(Math.abs(dx), Math.abs(dy)) !== 1);
    }
  format(grid, LEVELS.L, 0); // holds the place
  if (version < 7) return;
  let rest = version;
  for (let i = 0; i < 12; i++) rest = (rest << 1) ^ ((rest >> 11) * 0x1f25);
  for (let i = 0; i < 18; i++) {
    const dark = (((version << 12) | rest) >> i) & 1,
      a = size - 11 + (i % 3),
      b = Math.floor(i / 3);
    set(a, b, dark);
    set(b, a, dark);
  }
}

/* Where the centres of alignment patterns stand, on both sides. */
function places(version, size) {
  if (version === 1) return [];
  const count = Math.floor(version / 7) + 2,
    step = Math.ceil((size - 13) / (2 * count - 2)) * 2;
  return [6, ...Array.from({ length: count - 1 }, (_, i) => size - 7 - i * step).reverse()];
}

/* The level, the mask's number, ten check bits. */
function format(grid, { mark }, mask) {
  const size = grid.length,
    data = (mark << 3) | mask;
  let rest = data;
  for (let i = 0; i < 10; i++) rest = (rest << 1) ^ ((rest >> 9) * 0x537);
  const word = ((data << 10) | rest) ^ 0x5412,
    dark = (i) => (word >> i) & 1;
  for (let i = 0; i <= 5; i++) grid[i][8] = dark(i);
  grid[7][8] = dark(6);
  grid[8][8] = dark(7);
  grid[8][7] = dark(8);
  for (let i = 9; i < 15; i++) grid[8][14 - i] = dark(i);
  for (let i = 0; i < 8; i++) grid[8][size - 1 - i] = dark(i);
  for (let i = 8; i < 15; i++) grid[size - 15 + i][8] = dark(i);
  grid[size - 8][8] = 1;
}

/* In pairs of columns from the right, up and down in turn. */
function fill(grid, stream) {
  const size = grid.length;
  let next = 0;
  for (let right = size - 1; right >= 1; right -= 2) {
    if (right === 6) right = 5;
    for (let step = 0; step < size; step++)
      for (const x of [right, right - 1]) {
        const y = ((right + 1) & 2) === 0 ? size - 1 - step : step;
        if (grid[y][x] === null) grid[y][x] = stream[next++] || 0;
      }
  }
}

function masked(grid, free, level, number) {
  const made = grid.map((row, y) =>
    row.map((dark, x) => (free[y][x] && !MASKS[number](x, y) ? 1 - dark : dark)),
  );
  format(made, level, number);
  return made;
}

/* What makes a code hard to read: runs, squares of four, patterns like a finder, more dark than light. */
function penalty(grid) {
  const size = grid.length,
    lines = [...grid, ...grid.map((_, x) => grid.map((row) => row[x]))].map((line) => line.join(""));
  let sum = 0;
  for (const line of lines) {
    for (const run of line.match(/0{5,}|1{5,}/g) || []) sum += run.length - 2;
    for (let i = 0; i + 11 <= size; i++)
      if (["10111010000", "00001011101"].includes(line.slice(i, i + 11))) sum += 40;
  }
  for (let y = 1; y < size; y++)
    for (let x = 1; x < size; x++)
      if (new Set([grid[y][x], grid[y - 1][x], grid[y][x - 1], grid[y - 1][x - 1]]).size === 1) sum += 3;
  const share = grid.flat().filter(Boolean).length / (size * size);
  return sum + 10 * Math.floor(Math.abs(share * 100 - 50) / 5);
}

/* A drawing of it with its quiet zone, black on white whatever stands around it; null where the text is too long. */
export function drawing(text, level, shown) {
  const grid = modules(text, level);
  if (!grid) return null;
  const size = grid.length + 2 * QUIET,
    part = (tag, attributes) => {
      const made = document.createElementNS(SVG, tag);
      for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
      return made;
    };
  const svg = part("svg", { viewBox: `0 0 ${size} ${size}`, "shape-rendering": "crispEdges", ...shown });
  svg.append(
    part("rect", { width: size, height: size, fill: "#fff" }),
    part("path", {
      fill: "#000",
      d: grid
        .flatMap((row, y) => row.map((dark, x) => (dark ? `M${x + QUIET} ${y + QUIET}h1v1h-1z` : "")))
        .join(""),
    }),
  );
  return svg;
}
