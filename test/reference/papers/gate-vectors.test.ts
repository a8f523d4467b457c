import { describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { checkPaper } from '../../../src/domain/papers/gate/check-paper.js';
import { makePaper } from '../../../src/domain/papers/model/make-paper.js';
import type { Paper, PaperLine } from '../../../src/domain/papers/model/paper.js';
import { anInvoice, euro } from '../../domain/papers/quillmere.js';

/*
 * Verdicts of the rule makers' own unit vectors: CEN EN 16931 validation artefacts 1.3.16, test/Invoice-unit-UBL/BR-*.xml
 * (UT-01 to UT-15), OpenPEPPOL peppol-bis-invoice-3 2025-Q2, rules/unit-UBL-PEPPOL (UT-16, UT-19); numbers only. Where the
 * published rule has slack (tax by less than 1.00, a line by 0.02) the house is stricter: exact to the minor unit.
 */
const paper = (): Paper => makePaper(anInvoice());
const codes = (changed: Paper): string[] => checkPaper(changed).map((finding) => finding.code);
const withTotals = (totals: Record<string, string>): Paper => ({
  ...paper(),
  'BG-22': {
    ...paper()['BG-22'],
    ...Object.fromEntries(Object.entries(totals).map(([t, a]) => [t, euro(a)])),
  },
});
const withGroup = (base: string, rate: string, tax: string): Paper => ({
  ...paper(),
  'BG-23': [{ 'BT-116': euro(base), 'BT-117': euro(tax), 'BT-118': 'S', 'BT-119': new Decimal(rate) }],
});
const withLines = (nets: string[]): PaperLine[] => {
  const [line] = paper()['BG-25'];
  return nets.map((net) => ({
    ...line!,
    'BT-129': new Decimal(net.startsWith('-') ? -1 : 1),
    'BT-146': new Decimal(net).abs(),
    'BT-131': euro(net),
  }));
};

describe('the gate gives the rule makers’ verdicts', () => {
  it('says nothing about a paper that is right', () => expect(checkPaper(paper())).toEqual([]));

  it.each([
    ['UT-01', '-6491.34', '25', '-1622.84', true],
    ['UT-01', '-6491.34', '25', '-1622.83', false],
    ['UT-02', '2141.05', '14', '299.75', true],
    ['UT-05', '1000', '25', '251', false],
    ['UT-07', '12342.61', '4.8', '592.45', true],
    ['UT-07', '-6170.72', '20', '-1234.14', true],
    ['UT-07', '979.15', '4.8', '47.00', true],
    ['UT-07', '1200', '15', '180', true],
    ['ours: off by a cent', '1200', '15', '180.01', false],
  ])('%s, BR-CO-17: %s at %s with %s of tax', (_id, base, rate, tax, right) => {
    expect(codes(withGroup(base, rate, tax)).includes('BR-CO-17')).toBe(!right);
  });

  it.each([
    [['110', '90'], '200', true],
    [['110', '-90'], '20', true],
    [['110', '90'], '200.01', false],
    [['-90'], '-91', false],
  ])('UT-09, BR-CO-10: lines %j stated as %s', (nets, stated, right) => {
    const found = codes({ ...withTotals({ 'BT-106': stated }), 'BG-25': withLines(nets) });
    expect(found.includes('BR-CO-10')).toBe(!right);
  });

  it.each([
    ['1100', true],
    ['1000', false],
  ])('UT-10, BR-CO-11: allowances of 100 and 1000 beside a charge of 70 stated as %s', (stated, right) => {
    const allowance = (amount: string) => ({
      'BT-92': euro(amount),
      'BT-95': 'S' as const,
      'BT-96': new Decimal(23),
      'BT-97': 'a',
    });
    const found = codes({
      ...withTotals({ 'BT-107': stated, 'BT-108': '70' }),
      'BG-20': [allowance('100'), allowance('1000')],
      'BG-21': [{ 'BT-99': euro('70'), 'BT-102': 'S', 'BT-103': new Decimal(23), 'BT-104': 'c' }],
    });
    expect(found.includes('BR-CO-11')).toBe(!right);
    expect(found).not.toContain('BR-CO-12');
  });

  it.each([
    ['1000', '100', '100', '1000', true],
    ['1000', '100', '0', '900', true],
    ['1000', '0', '100', '1100', true],
    ['0', '100', '100', '0', true],
    ['0', '100', '0', '-100', true],
    ['1000', '100', '200', '1000', false],
  ])('UT-11, BR-CO-13: %s − %s + %s stated as %s', (lines, off, on, stated, right) => {
    const found = codes(withTotals({ 'BT-106': lines, 'BT-107': off, 'BT-108': on, 'BT-109': stated }));
    expect(found.includes('BR-CO-13')).toBe(!right);
  });

  it.each([
    ['400', true],
    ['300', false],
  ])('UT-12, BR-CO-14: taxes of 250 and 150 stated as %s', (stated, right) => {
    const [first] = withGroup('1000', '25', '250')['BG-23'];
    const [second] = withGroup('1000', '15', '150')['BG-23'];
    const found = codes({ ...withTotals({ 'BT-110': stated }), 'BG-23': [first!, second!] });
    expect(found.includes('BR-CO-14')).toBe(!right);
  });

  it.each([
    ['1000', '300', '1300', true],
    ['-100', '300', '200', true],
    ['1000', '250', '1250.01', false],
  ])('UT-13, BR-CO-15: %s + %s stated as %s', (net, tax, stated, right) => {
    const found = codes(withTotals({ 'BT-109': net, 'BT-110': tax, 'BT-112': stated }));
    expect(found.includes('BR-CO-15')).toBe(!right);
  });

  it.each([
    ['1200', '1000', '0', '200', true],
    ['1200', '1200', '0', '0', true],
    ['1200.78', '1000', '0.22', '201', true],
    ['1200.78', '0', '0.22', '1201', true],
    ['1200.22', '0', '-0.22', '1200', true],
    ['1200.22', '0', '-0.22', '1200.22', false],
  ])('UT-14, BR-CO-16: %s − %s + %s stated as %s', (gross, paid, rounding, stated, right) => {
    const found = codes(
      withTotals({ 'BT-112': gross, 'BT-113': paid, 'BT-114': rounding, 'BT-115': stated }),
    );
    expect(found.includes('BR-CO-16')).toBe(!right);
  });

  it.each([
    ['100', true],
    ['200', false],
  ])('UT-15, BR-S-08: a line of 100 at 25 with a base of %s', (base, right) => {
    const [line] = withLines(['100']);
    const found = codes({
      ...withGroup(base, '25', '25'),
      'BG-25': [{ ...line!, 'BT-152': new Decimal(25) }],
    });
    expect(found.includes('BR-S-08')).toBe(!right);
  });

  it.each([
    [[], [], '100', true],
    [[], ['10'], '110', true],
    [['10'], [], '90', true],
    [['30'], ['10', '10'], '90', true],
    [['30'], ['10', '10'], '90.03', false],
    [['30'], ['10', '10'], '89.97', false],
    [['30'], ['10', '10'], '90.02', false],
  ])('UT-16, R120: 10 × 10 less %j plus %j stated as %s', (off, on, net, right) => {
    const [line] = paper()['BG-25'];
    const found = codes({
      ...paper(),
      'BG-25': [
        {
          ...line!,
          'BT-129': new Decimal(10),
          'BT-146': new Decimal(10),
          'BT-131': euro(net),
          'BG-27': off.map((amount) => ({ 'BT-136': euro(amount), 'BT-139': 'a' })),
          'BG-28': on.map((amount) => ({ 'BT-141': euro(amount), 'BT-144': 'c' })),
        },
      ],
    });
    expect(found.includes('PEPPOL-EN16931-R120')).toBe(!right);
  });

  it.each([
    ['1', true],
    ['0', false],
    ['-1', false],
  ])('UT-19, R121: a base quantity of %s', (base, right) => {
    const [line] = paper()['BG-25'];
    const found = codes({ ...paper(), 'BG-25': [{ ...line!, 'BT-149': new Decimal(base) }] });
    expect(found.includes('PEPPOL-EN16931-R121')).toBe(!right);
  });
});
