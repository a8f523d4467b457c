import { fileURLToPath } from 'node:url';
import type { Letterhead } from '../../../src/printing/papers/letterhead.js';
import type { MeasurementCard } from '../../../src/printing/papers/measurement-card.js';
import type { QuoteGarment, QuoteSheet } from '../../../src/printing/papers/quote-sheet.js';
import { Stationery } from '../../../src/printing/papers/stationery.js';
import { quoteLabels } from '../../../src/printing/papers/words/quote-labels.js';
import { Templates } from '../../../src/printing/templates/templates.js';

const folder = fileURLToPath(new URL('../../../templates', import.meta.url));

export const stationery = (): Stationery => new Stationery(new Templates(folder), folder);

export const letterhead = (changes: Partial<Letterhead> = {}): Letterhead => ({
  studio: 'Quillmere Workroom',
  strapline: 'Bespoke tailoring, cut and made by hand',
  monogram: 'Q',
  logo: '',
  logoWords: '',
  address: ['Above the bookbinder’s', '3 Ferry Stairs', 'Quillmere', 'QM4 7LT'],
  contacts: ['Telephone 01632 960 417', 'odalys@quillmere.example'],
  registrations: ['VAT registration GB 999 9999 73'],
  smallPrint: [],
  accent: 'madder',
  ...changes,
});

export const jacket = (changes: Partial<QuoteGarment> = {}): QuoteGarment => ({
  number: 'C-2026-014/1',
  name: 'Jacket',
  wearer: '',
  make: 'Made by hand throughout, full floating canvas',
  scope: [
    'Single-breasted, three buttons, side vents',
    'Bellows pockets, two, with hand-worked tacks',
    'Inside pockets, three, one cut to measure for a notebook',
    'Buttonholes worked by hand in silk twist',
  ],
  parts: [],
  price: '2,140.00',
  ...changes,
});

export const quote = (changes: Partial<QuoteSheet> = {}): QuoteSheet => ({
  language: 'en-GB',
  labels: quoteLabels('en-GB'),
  letterhead: letterhead(),
  notice: '',
  title: 'Quotation',
  number: 'Q-2026-031',
  version: '2',
  date: '14 July 2026',
  validUntil: '13 August 2026',
  kind: {
    name: 'Fixed price',
    meaning:
      'The price below is what you will pay for the work described. Changes you ask for are priced and agreed first.',
  },
  client: {
    name: 'Corvin Haddlestone',
    address: ['The Apiary', 'Long Reach Lane', 'Quillmere QM4 9BE'],
    reference: '',
  },
  subject: 'A three-piece in hand-woven country tweed',
  opening: '',
  garments: [
    jacket(),
    jacket({
      number: 'C-2026-014/2',
      name: 'Waistcoat',
      make: 'Made by hand throughout',
      scope: ['Six buttons, four welt pockets', 'Back in cotton satin with strap and buckle'],
      price: '620.00',
    }),
    jacket({
      number: 'C-2026-014/3',
      name: 'Breeches',
      make: 'Machine seams, finished by hand',
      scope: ['Fall front, buttoned knee bands', 'Strappings of the same cloth'],
      price: '780.00',
    }),
  ],
  fittings: [
    'Jacket: baste, forward and finish bar finish',
    'Waistcoat and breeches: one each, with the jacket',
  ],
  excluded: ['Cloth cut for matching a further garment', 'Fittings away from the workroom'],
  options: [
    { name: 'Second pair of breeches', words: 'in the same cloth, ordered together', price: '690.00' },
    { name: 'Lining of printed silk', words: 'in place of the one described', price: '145.00' },
  ],
  price: {
    currency: 'Pounds sterling',
    lines: [
      { label: 'Three garments', amount: '3,540.00' },
      { label: 'Courtesy for ordering together', amount: '−90.00' },
      { label: 'Price before tax', amount: '3,450.00' },
    ],
    taxes: [{ name: 'VAT 20 %', on: '3,450.00', amount: '690.00', note: '' }],
    total: { label: 'Total to pay, in GBP', amount: '4,140.00' },
    notes: [],
  },
  deposit: {
    words: 'Due with your order: all materials and a third of the labour',
    amount: '1,656.00',
    shares: [
      { label: 'Jacket', amount: '1,001.08' },
      { label: 'Waistcoat', amount: '290.04' },
      { label: 'Breeches', amount: '364.88' },
    ],
    balance: { label: 'Balance, payable as each garment leaves', amount: '2,484.00' },
  },
  dates: [
    { label: 'First fitting of the jacket', words: 'Tuesday 1 September 2026' },
    { label: 'Waistcoat ready', words: 'Friday 18 September 2026' },
    { label: 'Jacket and breeches ready', words: 'Friday 9 October 2026' },
  ],
  cloth:
    'The cloth is priced at the weaver’s list of June 2026. It is held until 31 July; if the list changes before you accept, we tell you the new price first.',
  hours: null,
  terms: [
    'The deposit is due on acceptance; cutting begins when it has arrived.',
    'Garments made to your measure cannot be returned for a change of mind. Your rights where something is faulty are not affected.',
    'Finished garments are kept, insured, for three months after we tell you they are ready.',
  ],
  acceptance: {
    words: 'I accept quotation Q-2026-031, version 2, for what is ticked here.',
    choices: [
      'Everything in the price',
      'Jacket',
      'Waistcoat',
      'Breeches',
      'Second pair of breeches',
      'Lining of printed silk',
    ],
  },
  ...changes,
});

const rows: [string, string, string, string][] = [
  ['Neck', 'neck girth', '16 1/4 in', ''],
  ['Chest', 'chest girth', '41 1/2 in', '+1/2 in'],
  ['Waist', 'waist girth', '36 3/4 in', '+1/4 in'],
  ['Seat', 'hip girth', '42 in', ''],
  ['Half back', 'half of back width', '9 1/8 in', ''],
  ['Shoulder', 'shoulder length', '6 3/8 in', ''],
  ['Back neck to waist', 'back neck point to waist', '17 3/4 in', '+1/8 in'],
  ['Full length', '', '31 1/4 in', ''],
  ['Sleeve from centre back', 'back neck point to wrist', '34 1/2 in', ''],
  ['Scye depth', 'scye depth', '9 3/4 in', ''],
  ['Upper arm', 'upper-arm girth', '13 5/8 in', ''],
  ['Wrist', 'wrist girth', '7 1/4 in', ''],
  ['Inside leg', 'inside leg height', '32 in', ''],
  ['Outside leg', 'outside leg length', '43 1/2 in', ''],
  ['Thigh', 'thigh girth', '60,4 cm', '+0,3 cm'],
  ['Small of knee', 'lower knee girth', '14 1/2 in', ''],
  ['Calf', 'calf girth', '15 1/4 in', ''],
  ['Front rise', '', '12 in', ''],
];

export const card = (changes: Partial<MeasurementCard> = {}): MeasurementCard => ({
  language: 'en-GB',
  studio: 'Quillmere Workroom',
  purpose: 'Jacket, waistcoat and breeches',
  clientCode: 'CL-0027',
  date: '14 July 2026',
  measuredBy: 'Odalys Fenwright',
  takenOver: 'Shirt and unlined waistcoat',
  measurements: rows.map(([trade, iso, value, change]) => ({ trade, iso, value, change })),
  figuration: ['Right shoulder lower by 3/8 in', 'Blades prominent', 'Stands erect'],
  notes: ['Wears a watch in the left waistcoat pocket'],
  spareRows: 0,
  ...changes,
});
