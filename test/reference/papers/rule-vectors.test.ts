import { describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Money } from '../../../src/domain/kernel/money.js';
import { lineNet } from '../../../src/domain/papers/tax/line-net.js';
import { groupTax } from '../../../src/domain/papers/tax/tax-groups.js';
import type { TaxQuestion } from '../../../src/domain/papers/tax/tax-question.js';
import { workOutTax } from '../../../src/domain/papers/tax/work-out-tax.js';

/*
 * Unit vectors of the rule makers: CEN EN 16931 validation artefacts 1.3.16, test/Invoice-unit-UBL/BR-*.xml (UT-01 to
 * UT-15), and OpenPEPPOL peppol-bis-invoice-3 2025-Q2, rules/unit-UBL-PEPPOL (UT-16, UT-18, UT-19); numbers only.
 * What they reject is tested against the gate, in test/reference/papers/gate-vectors.test.ts.
 */
const euro = (text: string): Money => Money.parse(text, 'EUR');
const decimal = (text: string): Decimal => new Decimal(text);

const sold = (net: string, rate = '25') => ({
  quantity: decimal(net.startsWith('-') ? '-1' : '1'),
  price: decimal(net).abs(),
  category: 'S' as const,
  rate: decimal(rate),
});
const ask = (question: Partial<TaxQuestion>) => workOutTax({ currency: 'EUR', lines: [], ...question });
const flat = (amount: string) => [{ amount: euro(amount), category: 'S' as const, rate: decimal('25') }];

describe('tax of one group (BR-CO-17, BR-S-09)', () => {
  it.each([
    ['UT-01', '-6491.34', '25', '-1622.84'],
    ['UT-01', '6491.34', '25', '1622.84'],
    ['UT-02', '2141.05', '14', '299.75'],
    ['UT-05', '1000', '25', '250.00'],
    ['UT-07', '12342.61', '4.8', '592.45'],
    ['UT-07', '-6170.72', '20', '-1234.14'],
    ['UT-07', '979.15', '4.8', '47.00'],
    ['UT-07', '1200', '15', '180.00'],
  ])('%s: %s at %s %% is %s', (_id, base, rate, tax) => {
    expect(groupTax(euro(base), { category: 'S', rate: decimal(rate) }).toString()).toBe(tax);
  });
});

describe('sums', () => {
  it.each([
    [['110', '90'], '200.00'],
    [['110', '-90'], '20.00'],
    [['-90'], '-90.00'],
  ])('UT-09, BR-CO-10: lines %j come to %s', (nets, sum) => {
    expect(ask({ lines: nets.map((net) => sold(net)) })['BT-106'].toString()).toBe(sum);
  });

  it('UT-10, BR-CO-11: allowances 100 and 1000 come to 1100, and a charge is not among them', () => {
    const answer = ask({
      lines: [sold('5000')],
      allowances: [...flat('100'), ...flat('1000')],
      charges: flat('70'),
    });
    expect(answer['BT-107'].toString()).toBe('1100.00');
    expect(answer['BT-108'].toString()).toBe('70.00');
  });

  it.each([
    ['1000', '100', '100', '1000.00'],
    ['1000', '100', '0', '900.00'],
    ['1000', '0', '100', '1100.00'],
    ['0', '100', '100', '0.00'],
    ['0', '100', '0', '-100.00'],
    ['1000', '100', '200', '1100.00'],
  ])('UT-11, BR-CO-13: %s − %s + %s is %s', (lines, off, on, net) => {
    const answer = ask({ lines: [sold(lines)], allowances: flat(off), charges: flat(on) });
    expect(answer['BT-109'].toString()).toBe(net);
  });

  it('UT-12, BR-CO-14: taxes 250 and 150 come to 400', () => {
    expect(ask({ lines: [sold('1000', '25'), sold('1000', '15')] })['BT-110'].toString()).toBe('400.00');
  });

  it.each([
    ['1000', '30', '1300.00'],
    ['1000', '25', '1250.00'],
  ])('UT-13, BR-CO-15: %s with tax at %s %% is %s', (net, rate, gross) => {
    expect(ask({ lines: [sold(net, rate)] })['BT-112'].toString()).toBe(gross);
  });

  it.each([
    ['1200', '1000', '0', '200.00'],
    ['1200', '1200', '0', '0.00'],
    ['1200.78', '1000', '0.22', '201.00'],
    ['1200.78', '0', '0.22', '1201.00'],
    ['1200.22', '0', '-0.22', '1200.00'],
  ])('UT-14, BR-CO-16: %s − %s + %s leaves %s', (gross, prepaid, rounding, due) => {
    const line = { quantity: decimal('1'), price: decimal(gross), category: 'O' as const };
    const answer = ask({ lines: [line], prepaid: euro(prepaid), rounding: euro(rounding) });
    expect(answer['BT-115'].toString()).toBe(due);
  });

  it('UT-15, BR-S-08: 500 at 25 and 100 at 10 make bases of 500 and 100', () => {
    const { groups } = ask({ lines: [sold('500', '25'), sold('100', '10')] });
    expect(groups.map(({ base, rate }) => `${base} @ ${rate}`)).toEqual(['500.00 @ 25', '100.00 @ 10']);
  });
});

describe('one line (PEPPOL-EN16931-R120, R121)', () => {
  it.each([
    [[], [], '100.00'],
    [[], ['10'], '110.00'],
    [['10'], [], '90.00'],
    [['30'], ['10', '10'], '90.00'],
  ])('UT-16: 10 × 10 less %j plus %j is %s', (allowances, charges, net) => {
    const line = {
      quantity: decimal('10'),
      price: decimal('10'),
      category: 'S' as const,
      rate: decimal('25'),
      allowances: allowances.map(euro),
      charges: charges.map(euro),
    };
    expect(lineNet(line, 'EUR').toString()).toBe(net);
  });

  it('UT-18, R046: a gross price of 100 less 10 is a net price of 90', () => {
    const line = { quantity: decimal('1'), price: decimal('100').minus(10), category: 'O' as const };
    expect(lineNet(line, 'EUR').toString()).toBe('90.00');
  });

  it.each(['0', '-1'])('UT-19: a base quantity of %s is refused', (baseQuantity) => {
    const line = { ...sold('10'), baseQuantity: decimal(baseQuantity) };
    expect(() => lineNet(line, 'EUR')).toThrow(/above nought/);
  });

  it('BR-27: a negative price is refused', () => {
    const line = { ...sold('10'), price: decimal('-10') };
    expect(() => ask({ lines: [sold('1'), line] })).toThrow(
      expect.objectContaining({ fields: [expect.objectContaining({ field: 'lines.1.price' })] }),
    );
  });
});
