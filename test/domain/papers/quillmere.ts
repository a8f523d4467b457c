import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Money } from '../../../src/domain/kernel/money.js';
import type { PaperDraft } from '../../../src/domain/papers/model/make-paper.js';
import type { Buyer, Seller } from '../../../src/domain/papers/model/party.js';
import type { QuoteDraft } from '../../../src/domain/papers/quote/quote-paper.js';

/** The invented house of the demonstration studio and its first client, as papers see them. */
export const euro = (text: string): Money => Money.parse(text, 'EUR');

export const quillmere = (): Seller => ({
  'BT-27': 'Quillmere Workroom',
  'BT-30': 'QW-114',
  'BT-31': 'IE1234567FA',
  'BG-5': {
    'BT-35': 'Above the bookbinder’s, Ferry Lane',
    'BT-37': 'Quillmere',
    'BT-38': 'Q1',
    'BT-40': 'IE',
  },
});

export const haddlestone = (): Buyer => ({
  'BT-44': 'Corvin Haddlestone',
  'BG-8': { 'BT-50': 'The Hives', 'BT-52': 'Quillmere', 'BT-55': 'IE' },
});

const garment = (ref: string, name: string, price: string, scope: string[]) => ({
  ref,
  name,
  wearer: 'Corvin Haddlestone',
  scope: scope.map((text) => ({ text })),
  fittings: 2,
  price: euro(price),
  category: 'S' as const,
  rate: new Decimal(23),
});

export const aQuote = (changes: Partial<QuoteDraft> = {}): QuoteDraft => ({
  number: 'Q-2026-031',
  version: 1,
  issued: '2026-03-02',
  validUntil: '2026-04-01',
  agreement: 'fixed-price',
  currency: 'EUR',
  seller: quillmere(),
  client: haddlestone(),
  registeredForTax: true,
  garments: [
    garment('j', 'Jacket in hand-woven country tweed', '1450.00', ['Three buttons', 'Two bellows pockets']),
    garment('w', 'Waistcoat', '420.00', ['Six buttons']),
    garment('b', 'Breeches', '515.55', ['Buckled at the knee']),
  ],
  terms: ['Payment within 14 days.'],
  deposit: { rule: 'share', share: new Decimal('0.5') },
  ...changes,
});

/** A plain invoice over two garments that the gate has nothing to say about. */
export const anInvoice = (
  changes: Partial<PaperDraft> = {},
  head: Partial<PaperDraft['head']> = {},
): PaperDraft => ({
  head: {
    kind: 'invoice',
    'BT-1': 'I-2026-007',
    'BT-2': '2026-05-04',
    'BT-5': 'EUR',
    'BT-9': '2026-05-18',
    'BT-72': '2026-05-04',
    'BG-4': quillmere(),
    'BG-7': haddlestone(),
    ...head,
  },
  lines: [
    {
      name: 'Jacket',
      quantity: new Decimal(1),
      unit: 'piece',
      price: new Decimal('1450.00'),
      category: 'S',
      rate: new Decimal(23),
    },
    {
      name: 'Horn buttons',
      quantity: new Decimal(11),
      unit: 'piece',
      price: new Decimal('3.205'),
      category: 'S',
      rate: new Decimal(23),
    },
  ],
  ...changes,
});
