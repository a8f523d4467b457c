import { describe, expect, it } from 'vitest';
import { isTimeToAsk, FIRST_KEEPING_RULE as rule } from '../../../src/domain/clients/keeping.js';

const grown = { isChild: false, birthDate: undefined };

describe('how long something is kept on a client', () => {
  it('is asked from the day on which the years are over', () => {
    expect(isTimeToAsk(grown, '2020-03-02', rule, '2026-03-01')).toBe(false);
    expect(isTimeToAsk(grown, '2020-03-02', rule, '2026-03-02')).toBe(true);
  });

  it('is asked sooner of a child, and as of a grown-up once it is one', () => {
    const child = { isChild: true, birthDate: '2010-05-01' };
    expect(isTimeToAsk(child, '2024-01-10', rule, '2026-01-10')).toBe(true);
    expect(isTimeToAsk(child, '2026-04-01', rule, '2028-05-01')).toBe(false);
  });

  it('is not asked again before the day somebody settled on', () => {
    expect(isTimeToAsk(grown, '2010-01-01', rule, '2026-03-02', '2026-03-02')).toBe(false);
    expect(isTimeToAsk(grown, '2010-01-01', rule, '2026-03-03', '2026-03-02')).toBe(true);
  });
});
