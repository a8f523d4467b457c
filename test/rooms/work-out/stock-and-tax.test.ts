import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { studioToAsk } from './ask.js';

const { told, refused, ask } = studioToAsk();

describe('POST /api/work-out/stock', () => {
  const bought = [
    { kind: 'buy', lot: 'spring', quantity: '10', unitCost: '8.00' },
    { kind: 'buy', lot: 'summer', quantity: '10', unitCost: '9.50' },
  ];

  it.each([
    ['first-in-first-out', '103.75', '71.25', '9.50'], // 80.00 + 2.5 × 9.50; 7.5 × 9.50 left
    ['weighted-average', '109.38', '65.62', '8.749333333333'], // 175.00 × 12.5/20 = 109.375
  ])('%s (constructed)', async (method, issuedCost, value, averageUnitCost) => {
    const movements = [...bought, { kind: 'issue', quantity: 12.5 }];
    const answer = await told('stock', { currency: 'EUR', method, movements });
    expect(answer).toMatchObject({ issuedCost, value, averageUnitCost, onHand: '7.5' });
    expect(answer.issued).toMatchObject([{ cost: issuedCost, kind: 'issue', movement: 2 }]);
  });

  it('by lot, and a return at the cost it left with, named by its issue or by its lot', async () => {
    const issue = { kind: 'issue', lot: 'summer', quantity: 4 };
    for (const named of [{ of: 2 }, { lot: 'summer' }]) {
      const movements = [
        ...bought,
        issue,
        { kind: 'issue', lot: 'spring', quantity: 1 },
        { kind: 'return', quantity: 1, ...named },
      ];
      const answer = await told('stock', { method: 'lot', movements });
      // 38.00 + 8.00 − 9.50
      expect([answer.issuedCost, answer.onHand, answer.value]).toEqual(['36.50', '16', '138.50']);
    }
  });

  it('refuses more than is there, saying what is there', async () => {
    const movements = [...bought, { kind: 'issue', quantity: 21 }];
    const answer = await ask('stock', { method: 'first-in-first-out', movements });
    expect([answer.status, answer.json().code]).toEqual([422, 'shortfall']);
    expect(answer.json().errors).toEqual([
      { pointer: '/movements/2/quantity', detail: 'There are 20 here, and 21 were asked for.' },
    ]);
  });

  it('refuses an unknown kind, an unknown method, and a purchase without a cost', async () => {
    const movements = [
      { kind: 'steal', quantity: 1 },
      { kind: 'buy', quantity: 1 },
    ];
    expect(await refused('stock', { method: 'newest-first', movements })).toEqual([
      '/method',
      '/movements/0/kind',
      '/movements/1/unitCost',
    ]);
  });
});

type Sum = { charge: boolean; amount: string; category?: string; rate?: string };
type Example = {
  source: string;
  lines: { quantity: string; price: string; category: string; net: string; allowancesAndCharges?: Sum[] }[];
  documentAllowancesAndCharges: Sum[];
  vat: { category: string; rate?: string; base: string; tax: string }[];
  totals: Record<string, string>;
};

/** Lines, groups and totals of 45 official example invoices, each with its own source. */
const examples: Example[] = JSON.parse(
  readFileSync(new URL('../../reference/values/en16931-examples.json', import.meta.url), 'utf8'),
);

const questionOf = ({ lines, documentAllowancesAndCharges: onWhole, totals }: Example) => {
  const amounts = (sums: Sum[] = [], charge = false) =>
    sums.filter((sum) => sum.charge === charge).map(({ charge: _, ...sum }) => sum);
  const texts = (sums?: Sum[], charge = false) => amounts(sums, charge).map(({ amount }) => amount);
  return {
    currency: 'EUR',
    lines: lines.map(({ net: _, allowancesAndCharges: sums, ...line }) => ({
      ...line,
      allowances: texts(sums),
      charges: texts(sums, true),
    })),
    allowances: amounts(onWhole),
    charges: amounts(onWhole, true),
    prepaid: totals['BT-113'] ?? '0',
    rounding: totals['BT-114'] ?? '0',
  };
};

describe('POST /api/work-out/tax', () => {
  it('groups by category and rate, shares a discount, and leaves what is due (constructed)', async () => {
    const answer = await told('tax', {
      currency: 'EUR',
      lines: [
        { quantity: 1, price: '100.00', category: 'S', rate: 21 },
        { quantity: '2', price: '50.00', category: 'E' },
      ],
      spreadDiscount: '20.00',
      prepaid: '50.00',
    });
    // 10.00 off each; 90.00 × 21 % = 18.90
    expect(answer.lines).toEqual([{ net: '100.00' }, { net: '100.00' }]);
    expect(answer.groups).toEqual([
      { category: 'S', rate: '21', base: '90.00', tax: '18.90' },
      { category: 'E', rate: '0', base: '90.00', tax: '0.00' },
    ]);
    expect(answer).toMatchObject({
      'BT-106': '200.00',
      'BT-107': '20.00',
      'BT-108': '0.00',
      'BT-109': '180.00',
      'BT-110': '18.90',
      'BT-112': '198.90',
      'BT-113': '50.00',
      'BT-114': '0.00',
      'BT-115': '148.90',
    });
  });

  it('a rate of 0 and of 100', async () => {
    const line = (rate: number) => ({ quantity: 1, price: '0.05', category: 'S', rate });
    const { groups } = await told('tax', { lines: [line(0), line(100)] });
    expect(groups.map((group: any) => group.tax)).toEqual(['0.00', '0.05']);
  });

  it('refuses what cannot be meant by its place', async () => {
    const line = { quantity: 1, price: 1, category: 'S', rate: 21 };
    const bad = { ...line, price: '-1', category: 'X' };
    expect(await refused('tax', { lines: [line, bad] })).toEqual(['/lines/1/price', '/lines/1/category']);
    expect(await refused('tax', { lines: [{ ...line, rate: 101 }] })).toEqual(['/lines/0/rate']);
    expect(await refused('tax', { lines: [{ ...line, allowances: ['1.005'] }] })).toEqual([
      '/lines/0/allowances/0',
    ]);
    expect(await refused('tax', { lines: [line], spreadDiscount: 2 })).toEqual(['/spreadDiscount']);
  });

  it('works the 45 official example invoices of EN 16931 out, to the cent', async () => {
    expect(examples).toHaveLength(45);
    for (const example of examples) {
      const answer = await told('tax', questionOf(example));
      expect(
        answer.lines.map((line: any) => Number(line.net)),
        example.source,
      ).toEqual(example.lines.map((line) => Number(line.net)));
      const taxes = (groups: any[]) => groups.map((group) => Number(group.tax)).sort();
      expect(taxes(answer.groups), example.source).toEqual(taxes(example.vat));
      for (const [term, amount] of Object.entries(example.totals))
        expect(Number(answer[term]), `${example.source} ${term}`).toBe(Number(amount));
    }
  });
});
