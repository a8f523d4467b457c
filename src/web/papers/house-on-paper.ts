import type { Client } from '../../domain/clients/client.js';
import type { Studio } from '../../domain/house/studio.js';
import type { Decimal } from '../../domain/kernel/decimal.js';
import type { Buyer, Seller } from '../../domain/papers/model/party.js';
import { NOT_REGISTERED } from '../../domain/papers/quote/quote-words.js';
import { TAX_CATEGORIES, type TaxCategory } from '../../domain/papers/tax/category.js';
import type { Letterhead } from '../../printing/papers/letterhead.js';
import type { Accent } from '../../printing/templates/page-model.js';

const linesOf = (text: string): string[] =>
  text
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '');

const filled = (parts: Record<string, string | undefined>): Record<string, string> =>
  Object.fromEntries(Object.entries(parts).filter((part): part is [string, string] => Boolean(part[1])));

/** A VAT identifier begins with its country's two letters (EN 16931, BR-CO-9). */
const isVatIdentifier = (number: string): boolean => /^[A-Z]{2}/.test(number.replace(/\s/g, ''));

/** The house as the seller of a paper. */
export const sellerOf = ({ identity, tax }: Studio): Seller => {
  const [first, second, ...others] = linesOf(identity.address);
  const vat = tax.registered && isVatIdentifier(tax.taxNumber);
  return {
    ...filled({
      'BT-27': identity.name,
      'BT-30': tax.companyNumber,
      'BT-31': vat ? tax.taxNumber : '',
      'BT-32': vat ? '' : tax.taxNumber,
      'BT-41': identity.maker,
      'BT-42': identity.phone,
      'BT-43': identity.email,
    }),
    'BG-5': filled({
      'BT-35': first,
      'BT-36': second,
      'BT-162': others.join(', '),
      'BT-40': identity.country,
    }),
  };
};

/** A client as the buyer on a paper. */
export const buyerOf = (client: Client): Buyer => {
  const [first, second, ...others] = linesOf(client.address);
  return {
    ...filled({ 'BT-44': client.name, 'BT-46': client.code, 'BT-48': client.taxNumber }),
    'BG-8': filled({
      'BT-50': first,
      'BT-51': second,
      'BT-163': others.join(', '),
      'BT-55': client.country,
    }),
  };
};

/** The client's address as it stands on an envelope. */
export const envelopeOf = (client: Client): string[] => [
  ...linesOf(client.address),
  ...(client.country ? [client.country] : []),
];

/** How the house's work is taxed: exempt with its reason where it is not registered. */
export const taxOf = ({ tax }: Studio): { category: TaxCategory; rate?: Decimal; reason?: string } => {
  if (!tax.registered) return { category: 'E', reason: tax.reason || NOT_REGISTERED };
  return {
    category: tax.category,
    ...(tax.category === 'S' ? { rate: tax.rate } : {}),
    ...(tax.reason && TAX_CATEGORIES[tax.category].reason ? { reason: tax.reason } : {}),
  };
};

/** The head of the house's papers. */
export const letterheadOf = ({ identity, tax, accent }: Studio): Letterhead => ({
  studio: identity.name,
  strapline: '',
  monogram: ([...identity.name.trim()][0] ?? '').toLocaleUpperCase('en'),
  logo: '',
  address: [...linesOf(identity.address), ...(identity.country ? [identity.country] : [])],
  contacts: [identity.phone, identity.email, identity.website].filter((one) => one !== ''),
  registrations: [
    ...(tax.taxNumber ? [`Tax number ${tax.taxNumber}`] : []),
    ...(tax.companyNumber ? [`Company number ${tax.companyNumber}`] : []),
  ],
  accent: accent as Accent,
});
