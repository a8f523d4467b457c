import { describe, expect, it } from 'vitest';
import { inFactors } from '../../../src/web/words/factors.js';

const of = { plural: 'jackets', kind: 'pad-stitching', locale: 'en-GB' };

describe('a planned time as a multiplication, in words', () => {
  // 480 × 1.12 × 1.03 × 1.31 = 725.4 minutes.
  it('reads as it would be done on paper', () => {
    const factors = [
      { of: 'usual', times: 1.12 },
      { of: 'type', times: 1.03 },
      { of: 'kind', times: 1.31 },
    ] as const;
    const minutes = 480 * 1.12 * 1.03 * 1.31;
    expect(inFactors({ kind: 'pad-stitching', plannedMinutes: 480, factors, minutes, rows: 8 }, of)).toBe(
      'planned 8 h × your usual 1.12 × jackets 1.03 × pad stitching 1.31 = 12 h 05',
    );
  });

  it('leaves out what changes nothing, and writes decimals as the studio does', () => {
    const factors = [
      { of: 'usual', times: 1.1 },
      { of: 'type', times: 1.001 },
      { of: 'repeat', times: 0.9 },
    ] as const;
    expect(
      inFactors(
        { kind: 'hem', plannedMinutes: 60, factors, minutes: 59.5, rows: 0 },
        { ...of, locale: 'de' },
      ),
    ).toBe('planned 1 h × your usual 1,10 × made before 0,90 = 1 h');
  });
});
