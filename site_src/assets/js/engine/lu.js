/* Sparse LU with partial pivoting, real and complex: what NumPy's LAPACK does for the Python engine, whose matrices are dense. Columns
   are taken in the order of how few entries they have: so a circuit's matrix hardly fills up. A factored matrix solves any number of
   right sides.
   Factors are {rows, columns, upper, lower, index, re, im, pivotRe, pivotIm}: at step k the pivot stands at rows[k], columns[k]; from
   upper[k] on stand the rest of its row, and from lower[k] on what it is taken from the other rows with. */

/* Arrays to work in, by name. What is factored in a room stands there until the next matrix is. */
export const Room = class Room {
  constructor() {
    this.arrays = {};
  }

  /* At least so many numbers, of anything. */
  space(name, length, Kind = Float64Array) {
    const { arrays } = this;
    if (!arrays[name] || arrays[name].length < length) arrays[name] = new Kind(length);
    return arrays[name];
  }

  /* So many numbers, all the same. */
  filled(name, length, Kind = Float64Array, value = 0) {
    return this.space(name, length, Kind).fill(value, 0, length);
  }
};

/* The entries of a matrix (size * size, row by row) that are not zero, of `im` too where it is complex, row by row: {count, row, column, re, im}. */
export function entriesOf(room, size, re, im = null) {
  const all = size * size,
    row = room.space("entry row", all, Int32Array),
    column = room.space("entry column", all, Int32Array),
    values = room.space("entry re", all),
    imaginary = im && room.space("entry im", all);
  let count = 0;
  for (let i = 0, at = 0; i < size; i++) {
    for (let j = 0; j < size; j++, at++) {
      if (re[at] === 0 && (im === null || im[at] === 0)) continue;
      row[count] = i;
      column[count] = j;
      values[count] = re[at];
      if (im) imaginary[count] = im[at];
      count++;
    }
  }
  return { count, row, column, re: values, im: imaginary };
}

/* Factor a real matrix, given by its entries. The answer's `solve` takes a right side and puts the unknowns into `found`. Null when singular. */
export function factorReal(room, entries, size) {
  const full = room.filled("re", size * size),
    made = begun(room, size, entries),
    { rows, columns, upper, lower, index, pivotRe, pattern } = made,
    { step, done, firstRow, nextRow, rowOf, firstColumn, nextColumn, columnOf } = pattern,
    values = made.re;
  for (let e = 0; e < entries.count; e++) full[entries.row[e] * size + entries.column[e]] = entries.re[e];
  let put = 0;
  for (let k = 0; k < size; k++) {
    const at = columns[k];
    let best = -1,
      largest = 0;
    for (let e = firstRow[at]; e >= 0; e = nextRow[e]) {
      const extent = done[rowOf[e]] ? 0 : Math.abs(full[rowOf[e] * size + at]);
      if (extent > largest) (best = rowOf[e]), (largest = extent);
    }
    if (best < 0) return null;
    rows[k] = best;
    done[best] = 1;
    const from = best * size,
      pivot = (pivotRe[k] = full[from + at]);
    upper[k] = put;
    for (let e = firstColumn[best]; e >= 0; e = nextColumn[e]) {
      const j = columnOf[e];
      if (step[j] > k && full[from + j] !== 0) (index[put] = j), (values[put++] = full[from + j]);
    }
    lower[k] = put;
    for (let e = firstRow[at]; e >= 0; e = nextRow[e]) {
      const i = rowOf[e],
        to = i * size;
      if (done[i] || full[to + at] === 0) continue;
      const factor = full[to + at] / pivot;
      for (let u = upper[k]; u < lower[k]; u++) {
        if (!pattern.has[to + index[u]]) fillIn(pattern, i, index[u], size);
        full[to + index[u]] -= factor * values[u];
      }
      index[put] = i;
      values[put++] = factor;
    }
  }
  upper[size] = put;
  return { solve: (right, found) => solveReal(made, right, found) };
}

function solveReal({ size, rows, columns, upper, lower, index, re, pivotRe, left }, right, found) {
  for (let i = 0; i < size; i++) left[i] = right[i];
  for (let k = 0; k < size; k++) {
    const taken = left[rows[k]];
    if (taken !== 0) for (let e = lower[k]; e < upper[k + 1]; e++) left[index[e]] -= re[e] * taken;
  }
  for (let k = size - 1; k >= 0; k--) {
    let sum = left[rows[k]];
    for (let e = upper[k]; e < lower[k]; e++) sum -= re[e] * found[index[e]];
    found[columns[k]] = sum / pivotRe[k];
  }
  return found;
}

/* The same for a complex matrix: `solve` takes both halves of a right side, `found` is {re, im}. */
export function factorComplex(room, entries, size) {
  const fullRe = room.filled("re", size * size),
    fullIm = room.filled("im", size * size),
    made = begun(room, size, entries),
    { rows, columns, upper, lower, index, pivotRe, pivotIm, pattern } = made,
    { step, done, firstRow, nextRow, rowOf, firstColumn, nextColumn, columnOf } = pattern,
    [valueRe, valueIm] = [made.re, made.im];
  for (let e = 0; e < entries.count; e++) {
    fullRe[entries.row[e] * size + entries.column[e]] = entries.re[e];
    fullIm[entries.row[e] * size + entries.column[e]] = entries.im[e];
  }
  let put = 0;
  for (let k = 0; k < size; k++) {
    const at = columns[k];
    let best = -1,
      largest = 0;
    for (let e = firstRow[at]; e >= 0; e = nextRow[e]) {
      const place = rowOf[e] * size + at,
        extent = done[rowOf[e]] ? 0 : Math.abs(fullRe[place]) + Math.abs(fullIm[place]);
      if (extent > largest) (best = rowOf[e]), (largest = extent);
    }
    if (best < 0) return null;
    rows[k] = best;
    done[best] = 1;
    const from = best * size,
      pr = (pivotRe[k] = fullRe[from + at]),
      pi = (pivotIm[k] = fullIm[from + at]),
      square = pr * pr + pi * pi;
    upper[k] = put;
    for (let e = firstColumn[best]; e >= 0; e = nextColumn[e]) {
      const j = columnOf[e];
      if (step[j] <= k || (fullRe[from + j] === 0 && fullIm[from + j] === 0)) continue;
      index[put] = j;
      valueRe[put] = fullRe[from + j];
      valueIm[put++] = fullIm[from + j];
    }
    lower[k] = put;
    for (let e = firstRow[at]; e >= 0; e = nextRow[e]) {
      const i = rowOf[e],
        to = i * size,
        ar = fullRe[to + at],
        ai = fullIm[to + at];
      if (done[i] || (ar === 0 && ai === 0)) continue;
      const fr = (ar * pr + ai * pi) / square,
        fi = (ai * pr - ar * pi) / square;
      for (let u = upper[k]; u < lower[k]; u++) {
        const j = to + index[u];
        if (!pattern.has[j]) fillIn(pattern, i, index[u], size);
        fullRe[j] -= fr * valueRe[u] - fi * valueIm[u];
        fullIm[j] -= fr * valueIm[u] + fi * valueRe[u];
      }
      index[put] = i;
      valueRe[put] = fr;
      valueIm[put++] = fi;
    }
  }
  upper[size] = put;
  return { solve: (rightRe, rightIm, found) => solveComplex(made, rightRe, rightIm, found) };
}

function solveComplex(factors, rightRe, rightIm, found) {
  const { size, rows, columns, upper, lower, index, re, im, pivotRe, pivotIm } = factors,
    [leftRe, leftIm] = [factors.left, factors.leftIm];
  for (let i = 0; i < size; i++) (leftRe[i] = rightRe[i]), (leftIm[i] = rightIm[i]);
  for (let k = 0; k < size; k++) {
    const r = leftRe[rows[k]],
      m = leftIm[rows[k]];
    if (r === 0 && m === 0) continue;
    for (let e = lower[k]; e < upper[k + 1]; e++) {
      leftRe[index[e]] -= re[e] * r - im[e] * m;
      leftIm[index[e]] -= re[e] * m + im[e] * r;
    }
  }
  for (let k = size - 1; k >= 0; k--) {
    let r = leftRe[rows[k]],
      m = leftIm[rows[k]];
    for (let e = upper[k]; e < lower[k]; e++) {
      r -= re[e] * found.re[index[e]] - im[e] * found.im[index[e]];
      m -= re[e] * found.im[index[e]] + im[e] * found.re[index[e]];
    }
    const pr = pivotRe[k],
      pi = pivotIm[k],
      square = pr * pr + pi * pi;
    found.re[columns[k]] = (r * pr + m * pi) / square;
    found.im[columns[k]] = (m * pr - r * pi) / square;
  }
  return found;
}

/* Factors nothing is in yet, and the pattern of the matrix. */
function begun(room, size, entries) {
  const all = size * size,
    columns = sparsestFirst(room, entries, size);
  return {
    size,
    rows: room.space("rows", size, Int32Array),
    columns,
    upper: room.space("upper", size + 1, Int32Array),
    lower: room.space("lower", size, Int32Array),
    index: room.space("index", all, Int32Array),
    re: room.space("value re", all),
    im: room.space("value im", all),
    pivotRe: room.space("pivot re", size),
    pivotIm: room.space("pivot im", size),
    left: room.space("left", size),
    leftIm: room.space("left im", size),
    pattern: patternOf(room, size, columns, entries),
  };
}

/* Where the matrix has entries, as chains: of each column the rows (`firstRow[column]`, then `nextRow[entry]`, each `rowOf[entry]`), and of
   each row the columns. `has` tells it of every place, `step` when a column's turn comes, `done` which rows had theirs. */
function patternOf(room, size, columns, { count, row, column }) {
  const all = size * size,
    pattern = {
      count: 0,
      has: room.filled("has", all, Uint8Array),
      step: room.space("step of", size, Int32Array),
      done: room.filled("done", size, Uint8Array),
      firstRow: room.filled("first row", size, Int32Array, -1),
      nextRow: room.space("next row", all, Int32Array),
      rowOf: room.space("row of", all, Int32Array),
      firstColumn: room.filled("first column", size, Int32Array, -1),
      nextColumn: room.space("next column", all, Int32Array),
      columnOf: room.space("column of", all, Int32Array),
    };
  for (let k = 0; k < size; k++) pattern.step[columns[k]] = k;
  for (let e = count - 1; e >= 0; e--) fillIn(pattern, row[e], column[e], size);
  return pattern;
}

/* One entry more. */
function fillIn(pattern, i, j, size) {
  const e = pattern.count++;
  pattern.has[i * size + j] = 1;
  pattern.rowOf[e] = i;
  pattern.nextRow[e] = pattern.firstRow[j];
  pattern.firstRow[j] = e;
  pattern.columnOf[e] = j;
  pattern.nextColumn[e] = pattern.firstColumn[i];
  pattern.firstColumn[i] = e;
}

/* The columns by how many entries they have; of equal ones the first comes first. */
function sparsestFirst(room, { count, column }, size) {
  const entries = room.filled("entries", size, Int32Array),
    start = room.filled("start", size + 2, Int32Array),
    order = room.space("columns", size, Int32Array);
  for (let e = 0; e < count; e++) entries[column[e]]++;
  for (let j = 0; j < size; j++) start[entries[j] + 1]++;
  for (let many = 1; many < size + 2; many++) start[many] += start[many - 1];
  for (let j = 0; j < size; j++) order[start[entries[j]]++] = j;
  return order;
}
