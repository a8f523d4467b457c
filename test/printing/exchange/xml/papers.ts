import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { Decimal } from '../../../../src/domain/kernel/decimal.js';
import { Money } from '../../../../src/domain/kernel/money.js';
import { makePaper, type PaperDraft } from '../../../../src/domain/papers/model/make-paper.js';
import type { Paper, PaperHead } from '../../../../src/domain/papers/model/paper.js';
import type { TaxCategory } from '../../../../src/domain/papers/tax/category.js';
import { anInvoice, haddlestone, quillmere } from '../../../domain/papers/quillmere.js';

/** The official examples of EN 16931 as facts; test/reference/papers says where each comes from. */
type Example = {
  source: string;
  lines: {
    quantity: string;
    price: string;
    baseQuantity?: string;
    category: TaxCategory;
    rate?: string;
    net: string;
    allowancesAndCharges?: { charge: boolean; amount: string }[];
  }[];
  documentAllowancesAndCharges: { charge: boolean; amount: string; category: TaxCategory; rate?: string }[];
  vat: { category: TaxCategory; rate?: string; base: string; tax: string }[];
  totals: Record<string, string>;
};

export const examples: readonly Example[] = JSON.parse(
  readFileSync(new URL('../../../reference/values/en16931-examples.json', import.meta.url), 'utf8'),
);

export const money = (text: string): Money => Money.parse(text, 'EUR');
const decimal = (text?: string): Decimal | undefined => (text === undefined ? undefined : new Decimal(text));

/** An example put through the real paper model, with the invented house and client at its head. */
export const paperOf = (example: Example, head: Partial<PaperHead> = {}): Paper => {
  const some = (charge: boolean) =>
    example.documentAllowancesAndCharges
      .filter((each) => each.charge === charge)
      .map((each) => ({
        amount: money(each.amount),
        category: each.category,
        rate: decimal(each.rate),
        reason: charge ? 'Carriage' : 'A kindness',
      }));
  return makePaper(
    anInvoice(
      {
        lines: example.lines.map((line, index) => {
          const parts = (charge: boolean) =>
            line.allowancesAndCharges
              ?.filter((each) => each.charge === charge)
              .map((each) => ({ amount: money(each.amount), reason: 'By agreement' }));
          return {
            name: `Work ${index + 1}`,
            quantity: new Decimal(line.quantity),
            unit: 'piece',
            price: new Decimal(line.price),
            baseQuantity: decimal(line.baseQuantity),
            category: line.category,
            rate: decimal(line.rate),
            allowances: parts(false),
            charges: parts(true),
          };
        }),
        allowances: some(false),
        charges: some(true),
        prepaid: money(example.totals['BT-113'] ?? '0'),
        rounding: money(example.totals['BT-114'] ?? '0'),
        taxReasons: { E: 'Exempt', AE: 'Reverse charge', O: 'Not subject to tax', G: 'Export', K: 'Supply' },
      },
      head,
    ),
  );
};

/** Everything a head can say. */
export const fullHead = (): Partial<PaperHead> => ({
  'BT-7': '2026-05-05',
  'BT-10': 'By hand',
  'BT-13': 'C-2026-014',
  'BT-20': 'Payment within 14 days.',
  'BT-22': 'Thank you for your custom.',
  'BT-73': '2026-03-01',
  'BT-74': '2026-05-04',
  'BT-80': 'IE',
  'BG-3': [
    { 'BT-25': 'I-2026-002', 'BT-26': '2026-03-02' },
    { 'BT-25': 'I-2026-005', 'BT-26': '2026-04-06' },
    { 'BT-25': 'I-2025-099' },
  ],
  'BG-4': {
    ...quillmere(),
    'BT-28': 'Fenwright & Daughter <bespoke>',
    'BT-29': 'Q-9',
    'BT-32': 'TR 77',
    'BT-33': 'Sole trader',
    'BT-41': 'Odalys Fenwright',
    'BT-42': '+353 1 555 0114',
    'BT-43': 'odalys@quillmere.example',
    'BG-5': { ...quillmere()['BG-5'], 'BT-36': 'Second floor', 'BT-162': 'Ring twice', 'BT-39': 'Fingal' },
  },
  'BG-7': {
    ...haddlestone(),
    'BT-45': 'The Hives',
    'BT-46': 'K-31',
    'BT-47': 'H-2',
    'BT-48': 'IE7654321AB',
    'BT-56': 'Corvin Haddlestone',
    'BT-57': '+353 1 555 0199',
    'BT-58': 'corvin@hives.example',
    'BG-8': {
      ...haddlestone()['BG-8'],
      'BT-51': 'East door',
      'BT-163': 'By the well',
      'BT-53': 'Q2',
      'BT-54': 'Fingal',
    },
  },
  'BG-16': {
    'BT-81': '58',
    'BT-82': 'Credit transfer',
    'BT-83': 'RF18539007547034',
    'BT-84': 'DE89370400440532013000',
    'BT-85': 'Quillmere Workroom',
    'BT-86': 'QUILIE2DXXX',
  },
});

const typed = fc.string({
  unit: fc.constantFrom('a', 'é', '漢', '🧵', '<', '&', '"', "'", ']]>', ' ', '\n'),
  maxLength: 40,
});

/** Invoices at random: prices of many decimals, negative quantities, discounts, several currencies and kinds. */
export const anyPaper: fc.Arbitrary<Paper> = fc
  .record({
    currency: fc.constantFrom('EUR', 'JPY', 'KWD'),
    kind: fc.constantFrom('invoice', 'deposit-invoice', 'part-invoice', 'final-invoice', 'credit-note'),
    name: typed,
    note: typed,
    full: fc.boolean(),
    lines: fc.array(
      fc.record({
        quantity: fc.integer({ min: -30_000, max: 30_000 }),
        price: fc.integer({ min: 0, max: 90_000_000 }),
        unit: fc.constantFrom('m', 'piece', 'hour', 'pair', 'set'),
        rated: fc.constantFrom(
          ['S', '23'] as const,
          ['S', '13.5'] as const,
          ['Z', '0'] as const,
          ['E', '0'] as const,
        ),
        off: fc.integer({ min: 0, max: 2000 }),
      }),
      { minLength: 1, maxLength: 8 },
    ),
    rounding: fc.integer({ min: -4, max: 4 }),
    prepaid: fc.integer({ min: 0, max: 5000 }),
  })
  .map(({ currency, kind, name, note, full, lines, rounding, prepaid }) => {
    const minor = (amount: number): Money => Money.ofMinor(amount, currency);
    const draft: PaperDraft = anInvoice(
      {
        lines: lines.map((line) => ({
          name: `Work ${name}`,
          description: note,
          quantity: new Decimal(line.quantity).div(1000),
          unit: line.unit,
          price: new Decimal(line.price).div(10_000),
          category: line.rated[0],
          rate: new Decimal(line.rated[1]),
          allowances: line.off > 1000 ? [{ amount: minor(line.off), reason: 'For <cash> & thanks' }] : [],
          charges: line.off % 2 === 1 ? [{ amount: minor(line.off), reason: 'Carriage' }] : [],
        })),
        rounding: minor(rounding),
        prepaid: minor(prepaid),
        taxReasons: { E: 'Teaching' },
      },
      {
        ...(full ? fullHead() : {}),
        kind,
        'BT-5': currency,
        'BT-22': note,
        ...(kind === 'credit-note' && !full ? { 'BT-9': undefined } : {}),
      },
    );
    return makePaper(draft);
  });
