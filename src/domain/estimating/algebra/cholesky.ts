/**
 * Square, symmetrical, positive matrices as one flat array, row after row. Only the lower half is read.
 */
export type Flat = Float64Array;

/**
 * Replaces the lower half of A by L with A = L L'. A pivot that rounding has pushed to nothing is lifted to a hair
 * above zero, so that a plan with two lines that say the same thing still gets its answer.
 *
 * @param a the matrix, n x n; overwritten
 * @param n its size
 * @returns the same array, holding L below and on the diagonal
 */
export const factorise = (a: Flat, n: number): Flat => {
  for (let j = 0; j < n; j += 1) {
    const rowJ = j * n;
    for (let i = j; i < n; i += 1) {
      const rowI = i * n;
      let sum = a[rowI + j]!;
      for (let k = 0; k < j; k += 1) sum -= a[rowI + k]! * a[rowJ + k]!;
      if (i === j) a[rowJ + j] = Math.sqrt(Math.max(sum, 1e-300));
      else a[rowI + j] = sum / a[rowJ + j]!;
    }
  }
  return a;
};

/**
 * Solves L L' x = y in place.
 *
 * @param l the factor from `factorise`
 * @param n its size
 * @param y right-hand side; overwritten by x
 * @returns the same array
 */
export const solveInPlace = (l: Flat, n: number, y: Float64Array): Float64Array => {
  for (let i = 0; i < n; i += 1) {
    let sum = y[i]!;
    for (let k = 0; k < i; k += 1) sum -= l[i * n + k]! * y[k]!;
    y[i] = sum / l[i * n + i]!;
  }
  for (let i = n - 1; i >= 0; i -= 1) {
    let sum = y[i]!;
    for (let k = i + 1; k < n; k += 1) sum -= l[k * n + i]! * y[k]!;
    y[i] = sum / l[i * n + i]!;
  }
  return y;
};

/**
 * The inverse of the matrix whose factor is L: invert L, then multiply by its own transpose.
 *
 * @param l the factor from `factorise`
 * @param n its size
 * @returns the whole inverse, both halves filled
 */
export const inverseFrom = (l: Flat, n: number): Flat => {
  const up = new Float64Array(n * n);
  // Row j of `up` is column j of the inverse of L, so that the products below run along rows.
  for (let j = 0; j < n; j += 1) {
    const rowJ = j * n;
    up[rowJ + j] = 1 / l[rowJ + j]!;
    for (let i = j + 1; i < n; i += 1) {
      const rowI = i * n;
      let sum = 0;
      for (let k = j; k < i; k += 1) sum += l[rowI + k]! * up[rowJ + k]!;
      up[rowJ + i] = -sum / l[rowI + i]!;
    }
  }
  const inverse = new Float64Array(n * n);
  for (let i = 0; i < n; i += 1) {
    for (let j = 0; j <= i; j += 1) {
      let sum = 0;
      for (let k = i; k < n; k += 1) sum += up[i * n + k]! * up[j * n + k]!;
      inverse[i * n + j] = sum;
      inverse[j * n + i] = sum;
    }
  }
  return inverse;
};

/**
 * Adds `sign` A B to a matrix. Four rows of B at a time: the sums of a fit spend most of their time here.
 *
 * @param out rows x columns; changed in place
 * @param a rows x inner
 * @param b inner x columns
 * @param size rows, inner, columns
 * @param sign 1 or -1
 * @param lower true to fill only the lower half of a square result
 */
export const addProduct = (
  out: Flat,
  a: Flat,
  b: Flat,
  [rows, inner, columns]: readonly [number, number, number],
  sign: number,
  lower = false,
): void => {
  for (let i = 0; i < rows; i += 1) {
    const rowI = i * columns;
    const end = lower ? i + 1 : columns;
    let k = 0;
    for (; k + 3 < inner; k += 4) {
      const at = i * inner + k;
      const [c0, c1, c2, c3] = [sign * a[at]!, sign * a[at + 1]!, sign * a[at + 2]!, sign * a[at + 3]!];
      if (c0 === 0 && c1 === 0 && c2 === 0 && c3 === 0) continue;
      const b0 = k * columns;
      const b1 = b0 + columns;
      const b2 = b1 + columns;
      const b3 = b2 + columns;
      for (let j = 0; j < end; j += 1)
        out[rowI + j]! += c0 * b[b0 + j]! + c1 * b[b1 + j]! + c2 * b[b2 + j]! + c3 * b[b3 + j]!;
    }
    for (; k < inner; k += 1) {
      const c = sign * a[i * inner + k]!;
      const rowK = k * columns;
      if (c !== 0) for (let j = 0; j < end; j += 1) out[rowI + j]! += c * b[rowK + j]!;
    }
  }
};

/** The transpose of a rows x columns matrix. */
export const transposed = (a: Flat, rows: number, columns: number): Flat => {
  const out = new Float64Array(rows * columns);
  for (let i = 0; i < rows; i += 1)
    for (let j = 0; j < columns; j += 1) out[j * rows + i] = a[i * columns + j]!;
  return out;
};
