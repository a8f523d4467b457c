import { describe, expect, it } from 'vitest';
import { planUnderWay } from '../../../../src/domain/commissions/landing/plan-under-way.js';
import { anOperation } from '../an-extra.js';

describe('the plan that is being worked', () => {
  it('holds the lines of the bench with the minutes that were agreed', () => {
    const rows = [anOperation('lapels', 90), anOperation('put in since', 20), anOperation('untimed', 15)];
    const agreed = [anOperation('lapels', 60), anOperation('taken out since', 30), anOperation('untimed', 0)];
    expect(planUnderWay(rows, agreed).map(({ id, fixedMinutes }) => `${id} ${fixedMinutes}`)).toEqual([
      'lapels 60',
      'put in since 20',
      'untimed 15',
    ]);
  });
});
