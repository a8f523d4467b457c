import { normalQuantile } from './normal.js';
import { quickStudentQuantile } from './student.js';

/**
 * A seeded generator of evenly spread numbers (xorshift-multiply, "splitmix" finish on 32 bits): the same seed gives
 * the same row for ever, so a price never changes by being looked at twice.
 *
 * @param seed any whole number
 * @returns a function that gives the next number, from 0 up to, not including, 1
 * @see Steele, Lea and Flood, "Fast Splittable Pseudorandom Number Generators", OOPSLA 2014
 */
export const seeded = (seed: number): (() => number) => {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x9e3779b9) >>> 0;
    let z = state;
    z = Math.imul(z ^ (z >>> 16), 0x85ebca6b);
    z = Math.imul(z ^ (z >>> 13), 0xc2b2ae35);
    return ((z ^ (z >>> 16)) >>> 0) / 4294967296;
  };
};

/**
 * The numbers 0 to n - 1 in an order that depends only on the seed.
 *
 * @param n how many, up to 65,536
 * @param seed any whole number
 * @returns the shuffled numbers
 */
export const shuffled = (n: number, seed: number): Uint16Array => {
  const next = seeded(Math.imul(seed + 1, 0x27d4eb2f));
  const order = new Uint16Array(n);
  for (let i = 0; i < n; i += 1) {
    const j = Math.floor(next() * (i + 1));
    order[i] = order[j]!;
    order[j] = i;
  }
  return order;
};

const orders = new Map<number, Uint16Array>();

/** `shuffled`, remembered: the same few hundred orders serve every forecast. */
export const order = (n: number, seed: number): Uint16Array => {
  const key = seed * 65_536 + n;
  const known = orders.get(key);
  if (known) return known;
  const fresh = shuffled(n, seed);
  if (orders.size > 600) orders.clear();
  orders.set(key, fresh);
  return fresh;
};

/**
 * n values that stand for a Student t: the middle of each of n equally likely strata, in rising order.
 *
 * @param n how many strata
 * @param nu degrees of freedom, above 2; `Infinity` for the normal
 * @returns the values, rising, symmetrical about 0
 */
export const strata = (n: number, nu: number): Float64Array => {
  const values = new Float64Array(n);
  for (let i = 0; i < n / 2; i += 1) {
    const p = (i + 0.5) / n;
    const value = Number.isFinite(nu) ? quickStudentQuantile(p, nu) : normalQuantile(p);
    values[i] = value;
    values[n - 1 - i] = -value;
  }
  return values;
};

const tables = new Map<string, Float64Array>();

/** `strata`, remembered, with degrees of freedom to three digits. */
export const strataOf = (n: number, nu: number): Float64Array => {
  const rounded = Math.min(2000, Number(Math.max(2.1, nu).toPrecision(3)));
  const key = `${n} ${rounded}`;
  const known = tables.get(key);
  if (known) return known;
  const fresh = strata(n, rounded);
  if (tables.size > 200) tables.clear();
  tables.set(key, fresh);
  return fresh;
};
