import { describe, expect, it } from 'vitest';
import {
  answeredExtra,
  checkExtra,
  givenExtra,
  standingExtras,
  takingBack,
} from '../../../src/domain/commissions/extra.js';
import { causeRule } from '../../../src/domain/costing/cause-rules.js';
import { CAUSES } from '../../../src/domain/costing/causes.js';
import { Invalid } from '../../../src/domain/kernel/errors.js';
import { Money } from '../../../src/domain/kernel/money.js';
import { agreedOn, anExtra } from './an-extra.js';

const yes = { on: '2026-03-03', byWhom: 'Corvin Haddlestone', how: 'in person', words: '' };
const troubled = (act: () => unknown): string[] => {
  try {
    act();
  } catch (error) {
    if (error instanceof Invalid) return error.fields.map(({ field }) => field);
    throw error;
  }
  return [];
};

describe('what a cause does', () => {
  // design 2-costing.md section 5, the table of the six causes
  it('charges what the client asked for, and never an own error or what was forgotten', () => {
    expect(CAUSES.map((cause) => [cause, causeRule(cause).charging, causeRule(cause).mayBeExtra])).toEqual([
      ['client asked', 'yes', true],
      ['own choice', 'offered', true],
      ['own error', 'never', false],
      ['forgotten in the plan', 'never', false],
      ['cloth or old work demanded it', 'by-the-terms', true],
      ['body changed', 'by-the-terms', true],
    ]);
  });
});

describe('an extra', () => {
  it('is kept when it has a cause, words, work and a price', () => {
    expect(checkExtra(anExtra())).toEqual(anExtra());
  });

  it('is refused for an own error, and for what was forgotten', () => {
    expect(troubled(() => checkExtra(anExtra({ cause: 'own error' })))).toEqual(['cause']);
    expect(troubled(() => checkExtra(anExtra({ cause: 'forgotten in the plan' })))).toEqual(['cause']);
  });

  it('names every field that is missing', () => {
    const nought = Money.zero('EUR');
    const work = { operations: [], materials: [], expenses: [] };
    expect(troubled(() => checkExtra(anExtra({ wording: ' ', price: nought, work })))).toEqual([
      'wording',
      'line',
      'price',
    ]);
    expect(troubled(() => checkExtra(anExtra({ kind: 'compliments' })))).toEqual(['price']);
  });

  it('may have a price below nought where work is taken out', () => {
    expect(() => checkExtra(anExtra({ price: Money.parse('-40.00', 'EUR') }))).not.toThrow();
  });

  it('is agreed by somebody, in some way, on a day that has come', () => {
    const agreed = answeredExtra(anExtra(), 'agreed', yes, '2026-03-03');
    expect(agreed).toMatchObject({ state: 'agreed', answer: yes });
    const nobody = { ...yes, byWhom: '', how: '', on: '2026-03-04' };
    expect(troubled(() => answeredExtra(anExtra(), 'agreed', nobody, '2026-03-03'))).toEqual([
      'on',
      'byWhom',
      'how',
    ]);
  });

  it('is answered once', () => {
    const agreed = anExtra(agreedOn('2026-03-03'));
    expect(() => answeredExtra(agreed, 'declined', yes, '2026-03-03')).toThrow('agreed already');
    expect(() => givenExtra(agreed, yes, '2026-03-03')).toThrow('agreed already');
  });

  it('is given at no price, also after it was declined', () => {
    const declined = answeredExtra(anExtra({ cause: 'own choice' }), 'declined', yes, '2026-03-03');
    const given = givenExtra(declined, { ...yes, byWhom: '' }, '2026-03-04');
    expect(given).toMatchObject({ state: 'agreed', kind: 'compliments', price: Money.zero('EUR') });
  });
});

describe('an extra that takes another back', () => {
  const first = anExtra(agreedOn('2026-03-03'));

  it('turns its lines and its price round', () => {
    const back = takingBack(first, [first], 'Jetted pockets after all');
    expect(back).toMatchObject({
      price: Money.parse('-120.00', 'EUR'),
      takesBack: 'x1',
      dueAfter: '2026-05-01',
    });
    expect(back.work.operations.map(({ sign, line }) => [line.id, sign])).toEqual([
      ['bellows pockets', -1],
      ['jetted pockets', 1],
    ]);
  });

  it('leaves neither standing once it is agreed', () => {
    const offered = anExtra({ ...takingBack(first, [first], 'Back'), id: 'x2', number: 2 });
    expect(standingExtras([first, offered]).map(({ id }) => id)).toEqual(['x1']);
    const back = anExtra({ ...offered, ...agreedOn('2026-03-05') });
    expect(standingExtras([first, back])).toEqual([]);
  });

  it('comes once, and not on one that takes back', () => {
    const back = anExtra({
      ...takingBack(first, [first], 'Back'),
      ...agreedOn('2026-03-05'),
      id: 'x2',
      number: 2,
    });
    expect(() => takingBack(first, [first, back], 'Again')).toThrow('already');
    expect(() => takingBack(back, [first, back], 'Again')).toThrow('takes another back');
    expect(() => takingBack(anExtra(), [], 'Back')).toThrow('Only an agreed');
  });
});
