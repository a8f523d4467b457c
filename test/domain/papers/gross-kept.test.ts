import { describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Money } from '../../../src/domain/kernel/money.js';
import { lineNet } from '../../../src/domain/papers/tax/line-net.js';
import type { GrossPolicy } from '../../../src/domain/papers/tax/tax-question.js';
import { workOutTax } from '../../../src/domain/papers/tax/work-out-tax.js';

const gross = (price: string, rate = '21', quantity = '1') => ({
  quantity: new Decimal(quantity),
  price: new Decimal(price),
  category: 'S' as const,
  rate: new Decimal(rate),
});
const ask = (lines: ReturnType<typeof gross>[], grossPolicy?: GrossPolicy) =>
  workOutTax({ currency: 'EUR', lines, pricesInclude: 'tax', grossPolicy });

describe('prices kept with tax', () => {
  // Answer by exhaustion: 82.64 + 17.35 = 99.99, 82.65 + 17.36 = 100.01; no whole net lies between.
  it('100.00 at 21 % cannot be reached; the rounding amount brings the amount due there', () => {
    const answer = ask([gross('100')]);
    expect(`${answer['BT-109']} ${answer['BT-110']} ${answer['BT-112']}`).toBe('82.64 17.35 99.99');
    expect(`${answer['BT-114']} ${answer['BT-115']} ${answer.unreached}`).toBe('0.01 100.00 0.01');
  });

  it('with the one-cent policy the total is the nearest not above the promise, and the cent is there to be stated', () => {
    const answer = ask([gross('100')], 'cent');
    expect(`${answer['BT-112']} ${answer['BT-114']} ${answer['BT-115']} ${answer.unreached}`).toBe(
      '99.99 0.00 99.99 0.01',
    );
  });

  it('a price that can be reached is reached, without rounding', () => {
    const answer = ask([gross('1500')]);
    expect(`${answer['BT-109']} ${answer['BT-110']} ${answer['BT-112']} ${answer['BT-114']}`).toBe(
      '1239.67 260.33 1500.00 0.00',
    );
  });

  it('lines add up to their group, and quantity × net price gives each line back', () => {
    const lines = [gross('19.99', '21', '3'), gross('0.05', '21', '7'), gross('33.33', '21', '1.35')];
    const answer = ask(lines);
    expect(
      answer['BT-106'].equals(
        Money.sum(
          answer.groups.map((group) => group.base),
          'EUR',
        ),
      ),
    ).toBe(true);
    answer.lines.forEach((line, index) => {
      const again = lineNet({ ...lines[index]!, price: line.price }, 'EUR');
      expect(again.toString()).toBe(line.net.toString());
    });
  });

  it('a discount on the whole is taken off what the client pays', () => {
    const answer = workOutTax({
      currency: 'EUR',
      lines: [gross('121'), gross('109', '9')],
      pricesInclude: 'tax',
      spreadDiscount: Money.parse('23', 'EUR'),
    });
    expect(answer['BT-115'].toString()).toBe('207.00');
    expect(answer.groups.map((group) => group.base.toString())).toEqual(['90.00', '90.00']);
  });
});
