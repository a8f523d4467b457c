import { describe, expect, it } from 'vitest';
import {
  agreedPlan,
  extraOfLine,
  type PlannedWork,
  quotedFromRows,
  withExtra,
  workOfExtra,
} from '../../../src/domain/commissions/agreed-plan.js';
import { takingBack } from '../../../src/domain/commissions/extra.js';
import { variancesOf } from '../../../src/domain/costing/variances.js';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Money } from '../../../src/domain/kernel/money.js';
import { agreedOn, aMaterial, anExtra, anOperation } from './an-extra.js';

const quoted: PlannedWork = {
  plan: [
    anOperation('cut', 60, 'cut'),
    anOperation('jetted pockets', 90),
    anOperation('press', 30, 'finish'),
  ],
  materials: [aMaterial('tweed', '3.2', '46')],
  expenses: [],
};
const names = ({ plan, materials }: PlannedWork): string[] => [...plan, ...materials].map(({ name }) => name);
const pockets = anExtra(agreedOn('2026-03-03'));

describe('the agreed plan', () => {
  it('is the quote where nothing was agreed since', () => {
    expect(
      agreedPlan(quoted, [anExtra(), anExtra({ ...agreedOn('2026-03-03'), state: 'declined' })]),
    ).toEqual(quoted);
  });

  it('has what an agreed extra puts in, in its stage, without what it takes out', () => {
    expect(names(agreedPlan(quoted, [pockets]))).toEqual([
      'cut',
      'bellows pockets',
      'press',
      'tweed',
      'pocketing',
    ]);
  });

  it('is the quote again once the extra was taken back', () => {
    const back = anExtra({
      ...takingBack(pockets, [pockets], 'Back'),
      ...agreedOn('2026-03-09'),
      id: 'x2',
      number: 2,
    });
    expect(names(agreedPlan(quoted, [pockets, back])).sort()).toEqual(names(quoted).sort());
  });

  it('is not changed by an extra that is put in twice', () => {
    const once = withExtra(quoted, pockets.work);
    expect(withExtra(once, pockets.work)).toEqual(once);
  });

  it('is found from the plan as it stands where nothing was accepted', () => {
    const rows = withExtra(quoted, pockets.work);
    expect(names(quotedFromRows(rows, [pockets])).sort()).toEqual(names(quoted).sort());
    expect(names(agreedPlan(quotedFromRows(rows, [pockets]), [pockets])).sort()).toEqual(names(rows).sort());
  });

  it('says which extra a line belongs to', () => {
    expect([...extraOfLine([pockets])].map(([line, { number }]) => [line, number])).toEqual([
      ['bellows pockets', 1],
      ['pocketing', 1],
    ]);
    expect(extraOfLine([anExtra()]).size).toBe(0);
  });
});

describe('the work of an extra', () => {
  it('has work taken out below nought, and waste in its materials', () => {
    const work = workOfExtra(pockets.work);
    expect(work.operations?.map(({ name, minutes }) => [name, minutes.toFixed()])).toEqual([
      ['bellows pockets', '240'],
      ['jetted pockets', '-90'],
    ]);
    expect(work.materials?.map(({ quantity }) => quantity.toFixed())).toEqual(['0.55']);
  });

  // 9-rulings.md, Variances: 600 min at 20 an hour, price 300; actual 720 min, 60 of them an extra charged at 50; price 350:
  // efficiency −20, extras +30, price 0, profit 100 → 110.
  it('gives the variances of the ruled example', () => {
    const perHour = new Decimal(20);
    const extra = anExtra({
      ...agreedOn('2026-03-03'),
      price: Money.parse('50.00', 'EUR'),
      work: {
        operations: [{ sign: 1, line: anOperation('inside pocket', 60) }],
        materials: [],
        expenses: [],
      },
    });
    const timed = (name: string, minutes: number) => ({
      name,
      mode: 'hand',
      minutes: new Decimal(minutes),
      perHour,
    });
    const { operations = [], ...rest } = workOfExtra(extra.work);
    const found = variancesOf(
      'EUR',
      { operations: [timed('make', 600)], price: Money.parse('300.00', 'EUR') },
      { operations: [timed('make', 660), timed('inside pocket', 60)], price: Money.parse('350.00', 'EUR') },
      [
        {
          kind: extra.kind,
          price: extra.price,
          ...rest,
          operations: operations.map((one) => ({ ...one, perHour })),
        },
      ],
    );
    const of = (kind: string) =>
      Money.sum(
        found.variances.filter((one) => one.kind === kind).map(({ amount }) => amount),
        'EUR',
      ).toString();
    expect([of('labour-efficiency'), of('extras'), of('price')]).toEqual(['-20.00', '30.00', '0.00']);
    expect([found.plannedProfit.toString(), found.actualProfit.toString()]).toEqual(['100.00', '110.00']);
  });
});
