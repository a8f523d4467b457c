import type { TaxCategory } from '../../../src/domain/papers/tax/category.js';

/*
 * Complete example invoices published by the rule makers.
 * EN: CEN EN 16931 validation artefacts 1.3.16 (ConnectingEurope/eInvoicing-EN16931 at b6c9e06, EUPL-1.2).
 * PEP: OpenPEPPOL/peppol-bis-invoice-3 at 78d7f7d (2025-Q2). The file stands in each title; numbers only.
 */
export type Row = {
  title: string;
  currency?: string;
  /** quantity, price, category, rate, allowances, charges, base quantity */
  lines: [string, string, TaxCategory, string?, string[]?, string[]?, string?][];
  allowances?: [string, TaxCategory, string?][];
  charges?: [string, TaxCategory, string?][];
  prepaid?: string;
  rounding?: string;
  groups: string[];
  totals: Record<string, string>;
};

export const rows: readonly Row[] = [
  {
    title: 'IN-01 PEP rules/examples/base-example.xml',
    lines: [
      ['7', '400', 'S', '25'],
      ['-3', '500', 'S', '25'],
    ],
    charges: [['25', 'S', '25']],
    groups: ['S 25 1325.00 331.25'],
    totals: {
      'BT-106': '1300',
      'BT-108': '25',
      'BT-109': '1325',
      'BT-110': '331.25',
      'BT-112': '1656.25',
      'BT-115': '1656.25',
    },
  },
  {
    title:
      'IN-02 PEP base-negative-inv-correction.xml (signs turned on quantities; the charge as a negative charge)',
    lines: [
      ['-7', '400', 'S', '25'],
      ['3', '500', 'S', '25'],
    ],
    charges: [['-25', 'S', '25']],
    groups: ['S 25 -1325.00 -331.25'],
    totals: {
      'BT-106': '-1300',
      'BT-108': '-25',
      'BT-109': '-1325',
      'BT-110': '-331.25',
      'BT-112': '-1656.25',
      'BT-115': '-1656.25',
    },
  },
  {
    title: 'IN-03 PEP base-creditnote-correction.xml (positive credit note of IN-01)',
    lines: [
      ['7', '400', 'S', '25'],
      ['-3', '500', 'S', '25'],
    ],
    charges: [['25', 'S', '25']],
    groups: ['S 25 1325.00 331.25'],
    totals: { 'BT-106': '1300', 'BT-109': '1325', 'BT-112': '1656.25', 'BT-115': '1656.25' },
  },
  {
    title: 'IN-05 PEP Allowance-example.xml',
    lines: [
      ['10', '410', 'S', '25', ['101'], ['1']],
      ['10', '200', 'E', '0', [], [], '2'],
      ['10', '100', 'S', '25', ['101'], ['1']],
    ],
    allowances: [['200', 'S', '25']],
    charges: [['200', 'S', '25']],
    prepaid: '1000',
    groups: ['S 25 4900.00 1225.00', 'E 0 1000.00 0.00'],
    totals: {
      'BT-106': '5900',
      'BT-107': '200',
      'BT-108': '200',
      'BT-109': '5900',
      'BT-110': '1225',
      'BT-112': '7125',
      'BT-115': '6125',
    },
  },
  {
    title: 'IN-06 PEP snippets/Snippet-full.xml',
    lines: [['1', '4100', 'S', '25', ['100'], ['100']]],
    allowances: [['300', 'S', '25']],
    charges: [['200', 'S', '25']],
    prepaid: '1000',
    groups: ['S 25 4000.00 1000.00'],
    totals: {
      'BT-106': '4100',
      'BT-107': '300',
      'BT-108': '200',
      'BT-109': '4000',
      'BT-112': '5000',
      'BT-115': '4000',
    },
  },
  {
    title:
      'IN-09 EN ubl/examples/ubl-tc434-example1.xml (20 lines; the last with the sign its net has, an erratum of the file)',
    lines: [
      ['2', '9.95', 'S', '6'],
      ...['9.85', '8.29'].map((price): [string, string, TaxCategory, string] => ['1', price, 'S', '6']),
      ['2', '7.23', 'S', '6'],
      ...['35.00', '35.00', '10.65', '1.55'].map((price): [string, string, TaxCategory, string] => [
        '1',
        price,
        'S',
        '6',
      ]),
      ['3', '4.79', 'S', '6'],
      ['1', '8.29', 'S', '6'],
      ['2', '8.29', 'S', '6'],
      ['1', '9.95', 'S', '6'],
      ['2', '1.65', 'S', '6'],
      ['1', '10.80', 'S', '21'],
      ['1', '3.90', 'S', '6'],
      ['2', '3.80', 'S', '21'],
      ['2', '4.67', 'S', '21'],
      ['1', '18.63', 'S', '21'],
      ['6', '17.02', 'S', '6'],
      ['-6', '18.33', 'S', '6'],
    ],
    groups: ['S 6 183.23 10.99', 'S 21 46.37 9.74'],
    totals: { 'BT-106': '229.60', 'BT-110': '20.73', 'BT-112': '250.33', 'BT-115': '250.33' },
  },
  {
    title: 'IN-10 EN ubl-tc434-example3.xml (quantity 1 for the printed 2, an erratum of the file)',
    currency: 'DKK',
    lines: [
      ['1', '800', 'S', '25'],
      ['1', '800', 'S', '10'],
    ],
    charges: [['100', 'S', '25']],
    groups: ['S 25 900.00 225.00', 'S 10 800.00 80.00'],
    totals: { 'BT-106': '1600', 'BT-109': '1700', 'BT-110': '305', 'BT-115': '2005' },
  },
  {
    title: 'IN-11 EN ubl-tc434-example4.xml',
    lines: [
      ['1000', '1.00', 'S', '25'],
      ['100', '5', 'S', '25'],
      ['500', '5', 'S', '12'],
    ],
    groups: ['S 25 1500.00 375.00', 'S 12 2500.00 300.00'],
    totals: { 'BT-106': '4000', 'BT-110': '675', 'BT-115': '4675' },
  },
  {
    title: 'IN-12 EN ubl-tc434-example5.xml',
    lines: [
      ['1000', '1.00', 'S', '25', ['100'], ['100']],
      ['100', '5', 'S', '25'],
      ['500', '5', 'S', '12'],
    ],
    allowances: [['150', 'S', '25']],
    charges: [['150', 'S', '25']],
    prepaid: '2337.50',
    groups: ['S 25 1500.00 375.00', 'S 12 2500.00 300.00'],
    totals: { 'BT-106': '4000', 'BT-107': '150', 'BT-108': '150', 'BT-112': '4675', 'BT-115': '2337.50' },
  },
  {
    title: 'IN-14 EN ubl-tc434-example9.xml',
    lines: [['3', '49.00', 'S', '21']],
    groups: ['S 21 147.00 30.87'],
    totals: { 'BT-115': '177.87' },
  },
  {
    title: 'IN-15 EN sample-discount-price.xml',
    lines: [['100', '0.1212', 'S', '25']],
    groups: ['S 25 12.12 3.03'],
    totals: { 'BT-106': '12.12', 'BT-115': '15.15' },
  },
  {
    title:
      'IN-18 EN huf_example_cii.xml (whole forint; in a currency without decimals, for ISO 4217 gives the forint two)',
    currency: 'JPY',
    lines: [
      ['64', '361.09', 'S', '27', [], ['330']],
      ['56.81', '371.34', 'S', '27', [], ['293']],
      ['1', '24351', 'S', '27'],
    ],
    groups: ['S 27 69180 18679'],
    totals: { 'BT-106': '69180', 'BT-110': '18679', 'BT-115': '87859' },
  },
  {
    title: 'IN-20 EN FT G2G_TD01, split payment: category B, arithmetic only',
    lines: [['20', '62.30', 'B', '22']],
    prepaid: '274.12',
    groups: ['B 22 1246.00 274.12'],
    totals: { 'BT-112': '1520.12', 'BT-115': '1246' },
  },
  {
    title:
      'IN-21 EN XRechnung-O.xml (charges as published; their percentages are errata and are not checked)',
    lines: [
      ['1', '83654.15', 'O'],
      ['1', '252646.80', 'O'],
    ],
    charges: [
      ['15894.27', 'O'],
      ['33349.38', 'O'],
    ],
    groups: ['O 0 385544.60 0.00'],
    totals: { 'BT-106': '336300.95', 'BT-108': '49243.65', 'BT-109': '385544.60', 'BT-115': '385544.60' },
  },
  ...(['Z', 'E'] as const).map((category) => ({
    title: `IN-22 PEP vat-category-${category}`,
    currency: 'GBP',
    lines: [['10', '120', category, '0']] as Row['lines'],
    groups: [`${category} 0 1200.00 0.00`],
    totals: { 'BT-115': '1200' },
  })),
  {
    title: 'IN-23 PEP vat-category-O',
    currency: 'SEK',
    lines: [
      ['1', '2500', 'O'],
      ['1', '700', 'O'],
    ],
    groups: ['O 0 3200.00 0.00'],
    totals: { 'BT-115': '3200' },
  },
  {
    title: 'IN-24 EN ubl-tc434-creditnote1.xml',
    lines: [['1', '100.11', 'E', '0']],
    groups: ['E 0 100.11 0.00'],
    totals: { 'BT-115': '100.11' },
  },
];
