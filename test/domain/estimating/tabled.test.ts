import { describe, expect, it } from 'vitest';
import { tabled } from '../../../src/domain/estimating/forecast/tabled.js';

describe('a function read from a table', () => {
  const places = Float64Array.from({ length: 1000 }, (_, i) => -5 + i / 100);

  it('is asked some hundred times and answers as if asked a thousand', () => {
    let asked = 0;
    const f = tabled(places, (at) => {
      asked += 1;
      return Math.exp(-at * at);
    });
    for (const at of places) expect(f(at)).toBeCloseTo(Math.exp(-at * at), 3);
    expect(asked).toBeLessThan(500);
  });

  it('is asked itself where the places lie far apart, and once where they are one', () => {
    const square = (at: number) => at * at;
    expect(tabled(Float64Array.of(-500, 3, 700), square)(3)).toBe(9);
    expect(tabled(Float64Array.of(4, 4, 4), square)(4)).toBe(16);
  });
});
