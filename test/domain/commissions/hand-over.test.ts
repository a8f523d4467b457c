import { describe, expect, it } from 'vitest';
import { checkHandOver, percentagesIn } from '../../../src/domain/commissions/hand-over.js';
import { Money } from '../../../src/domain/kernel/money.js';

describe('a hand-over', () => {
  it('has somebody who received it', () => {
    const said = { remnants: '', spares: 'Two horn buttons', care: '', receivedBy: 'Corvin Haddlestone' };
    expect(checkHandOver(said)).toEqual(said);
    expect(() => checkHandOver({ ...said, receivedBy: ' ' })).toThrow('Who received it?');
    expect(() => checkHandOver({ ...said, care: 'x'.repeat(2001) })).toThrow('At most 2000');
  });
});

describe('percentages in the terms', () => {
  // By hand: 25 % of 1,234.56 is 308.64; 33.3 % is 411.10848, rounded to 411.11; 12,5 % is 154.32.
  const price = Money.parse('1234.56', 'EUR');
  const found = (...terms: string[]) =>
    percentagesIn(terms, price).map(({ percent, ofPrice }) => [percent.toFixed(), ofPrice.toString()]);

  it('are figures of the agreed price, each in its sentence', () => {
    expect(found('The deposit of 25 % is kept.', 'After cutting 33.3% is due.')).toEqual([
      ['25', '308.64'],
      ['33.3', '411.11'],
    ]);
    expect(found('12,5 per cent when cancelled, 50 percent after the fitting')).toEqual([
      ['12.5', '154.32'],
      ['50', '617.28'],
    ]);
    expect(percentagesIn(['Half, that is 50 %.'], price)[0]?.sentence).toBe('Half, that is 50 %.');
  });

  it('are none where there are none, or where it cannot be a share', () => {
    expect(found('The deposit is due on acceptance.', 'Interest of 250 % a year')).toEqual([]);
  });
});
