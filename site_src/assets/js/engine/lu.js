/* Dense LU with partial pivoting, real and complex: what NumPy's LAPACK does for the Python engine. A factored matrix solves any
   number of right sides. Circuits leave most of a matrix empty, so rows and columns of zeros are stepped over. */

/* Factor a real matrix (size * size, row by row). The answer's `solve` takes a right side and gives the unknowns. Null when singular. */
export function factorReal(matrix, size) {
  const lu = matrix.slice(),
    order = identity(size),
    filled = new Int32Array(size);
  for (let k = 0; k < size; k++) {
    let best = k;
    for (let i = k + 1; i < size; i++)
      if (Math.abs(lu[i * size + k]) > Math.abs(lu[best * size + k])) best = i;
    if (best !== k) swap(order, k, best), swapRows(lu, size, k, best);
    const row = k * size,
      pivot = lu[row + k];
    if (pivot === 0) return null;
    let count = 0;
    for (let j = k + 1; j < size; j++) if (lu[row + j] !== 0) filled[count++] = j;
    for (let i = k + 1; i < size; i++) {
      const at = i * size;
      if (lu[at + k] === 0) continue;
      const factor = (lu[at + k] /= pivot);
      for (let c = 0; c < count; c++) lu[at + filled[c]] -= factor * lu[row + filled[c]];
    }
  }
  return { solve: (right) => solveReal(lu, order, size, right) };
}

function solveReal(lu, order, size, right) {
  const found = new Float64Array(size);
  for (let i = 0; i < size; i++) {
    let sum = right[order[i]];
    for (let j = 0, at = i * size; j < i; j++) sum -= lu[at + j] * found[j];
    found[i] = sum;
  }
  for (let i = size - 1; i >= 0; i--) {
    let sum = found[i];
    const at = i * size;
    for (let j = i + 1; j < size; j++) sum -= lu[at + j] * found[j];
    found[i] = sum / lu[at + i];
  }
  return found;
}

/* The same for a complex matrix {re, im}; right sides are real, unknowns {re, im}. */
export function factorComplex(matrix, size) {
  const re = matrix.re.slice(),
    im = matrix.im.slice(),
    order = identity(size),
    filled = new Int32Array(size);
  for (let k = 0; k < size; k++) {
    let best = k,
      largest = Math.abs(re[k * size + k]) + Math.abs(im[k * size + k]);
    for (let i = k + 1, at = i * size + k; i < size; i++, at += size) {
      const extent = Math.abs(re[at]) + Math.abs(im[at]);
      if (extent > largest) (best = i), (largest = extent);
    }
    if (largest === 0) return null;
    if (best !== k) swap(order, k, best), swapRows(re, size, k, best), swapRows(im, size, k, best);
    const row = k * size,
      pr = re[row + k],
      pi = im[row + k],
      square = pr * pr + pi * pi;
    let count = 0;
    for (let j = row + k + 1; j < row + size; j++) if (re[j] !== 0 || im[j] !== 0) filled[count++] = j - row;
    for (let i = k + 1; i < size; i++) {
      const at = i * size,
        ar = re[at + k],
        ai = im[at + k];
      if (ar === 0 && ai === 0) continue;
      const fr = (re[at + k] = (ar * pr + ai * pi) / square),
        fi = (im[at + k] = (ai * pr - ar * pi) / square);
      for (let c = 0; c < count; c++) {
        const from = row + filled[c],
          to = at + filled[c];
        re[to] -= fr * re[from] - fi * im[from];
        im[to] -= fr * im[from] + fi * re[from];
      }
    }
  }
  return { solve: (right) => solveComplex({ re, im }, order, size, right) };
}

function solveComplex(lu, order, size, right) {
  const re = new Float64Array(size),
    im = new Float64Array(size);
  for (let i = 0; i < size; i++) {
    re[i] = right[order[i]];
    gather(lu, re, im, i, i * size, 0, i);
  }
  for (let i = size - 1; i >= 0; i--) {
    const at = i * size,
      pr = lu.re[at + i],
      pi = lu.im[at + i],
      square = pr * pr + pi * pi;
    gather(lu, re, im, i, at, i + 1, size);
    const r = re[i],
      m = im[i];
    re[i] = (r * pr + m * pi) / square;
    im[i] = (m * pr - r * pi) / square;
  }
  return { re, im };
}

/* Take from unknown i what the unknowns from `start` to before `stop` contribute to its row. */
function gather(lu, re, im, i, at, start, stop) {
  let r = re[i],
    m = im[i];
  for (let j = start; j < stop; j++) {
    r -= lu.re[at + j] * re[j] - lu.im[at + j] * im[j];
    m -= lu.re[at + j] * im[j] + lu.im[at + j] * re[j];
  }
  re[i] = r;
  im[i] = m;
}

function identity(size) {
  const order = new Int32Array(size);
  for (let i = 0; i < size; i++) order[i] = i;
  return order;
}

function swap(array, one, two) {
  const kept = array[one];
  array[one] = array[two];
  array[two] = kept;
}

function swapRows(matrix, size, one, two) {
  for (let j = 0, a = one * size, b = two * size; j < size; j++, a++, b++) {
    const kept = matrix[a];
    matrix[a] = matrix[b];
    matrix[b] = kept;
  }
}
