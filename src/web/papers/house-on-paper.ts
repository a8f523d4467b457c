import { createHash } from 'node:crypto';
import type { Client } from '../../domain/clients/client.js';
import type { Studio } from '../../domain/house/studio.js';
import type { Decimal } from '../../domain/kernel/decimal.js';
import type { Buyer, Seller } from '../../domain/papers/model/party.js';
import { NOT_REGISTERED } from '../../domain/papers/quote/quote-words.js';
import { TAX_CATEGORIES, type TaxCategory } from '../../domain/papers/tax/category.js';
import type { Letterhead } from '../../printing/papers/letterhead.js';
import { paperWords } from '../../printing/papers/words/paper-words.js';
import type { Accent } from '../../printing/templates/page-model.js';
import type { StudioMark } from '../../storage/books/house/mark-book.js';

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
      // A seller is told by an identifier, a registration or a VAT number (BR-CO-26); some houses have only their tax number.
      'BT-29': vat || tax.companyNumber ? '' : tax.taxNumber,
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

/** A reason for charging no tax, in the paper's language where it is one of the program's own sentences. */
export const reasonOnPaper = (reason: string, language: string): string => {
  const words = paperWords(language);
  const isOurs = reason === NOT_REGISTERED || reason === UNASKED_REASON;
  return isOurs && words.language !== 'en' ? words.say('tax.not-registered') : reason;
};

/** With what a new house begins. */
const UNASKED_REASON = 'Not registered for tax';

/** What a letterhead needs besides the house: the paper's language, and the mark where the house has one. */
export type OnPaper = { readonly language: string; readonly mark?: StudioMark | undefined };

const logoOf = (mark: StudioMark | undefined): Pick<Letterhead, 'logo' | 'logoWords'> => ({
  logo: mark ? `data:${MARK_TYPES[mark.kind]};base64,${mark.bytes}` : '',
  logoWords: mark?.alternative ?? '',
});

/** A sheet with the mark on its letterhead, for papers whose words are made without it. */
export const marked = <S extends { readonly letterhead: Letterhead }>(
  sheet: S,
  mark: StudioMark | undefined,
): S => ({ ...sheet, letterhead: { ...sheet.letterhead, ...logoOf(mark) } });

/** The head of the house's papers. */
export const letterheadOf = (
  { identity, tax, papers, accent }: Studio,
  { language, mark }: OnPaper = { language: 'en' },
): Letterhead => {
  const { say } = paperWords(language);
  return {
    studio: identity.name,
    strapline: papers.strapline,
    monogram: ([...identity.name.trim()][0] ?? '').toLocaleUpperCase('en'),
    ...logoOf(mark),
    address: [...linesOf(identity.address), ...(identity.country ? [identity.country] : [])],
    contacts: [identity.phone, identity.email, identity.website].filter((one) => one !== ''),
    registrations: [
      ...(tax.taxNumber ? [say('letterhead.tax-number', { number: tax.taxNumber })] : []),
      ...(tax.companyNumber ? [say('letterhead.company-number', { number: tax.companyNumber })] : []),
      ...linesOf(papers.headLines),
    ],
    smallPrint: linesOf(papers.smallPrint),
    accent: accent as Accent,
  };
};

export const MARK_TYPES = { svg: 'image/svg+xml', png: 'image/png' } as const;

/**
 * A sheet as it is kept beside its print: the print carries the picture itself, the words keep which one it was.
 */
export const keptSheet = <S extends { readonly letterhead: Letterhead }>(sheet: S): S => {
  const { logo } = sheet.letterhead;
  const which = logo && `sha256:${createHash('sha256').update(logo).digest('hex')}`;
  return { ...sheet, letterhead: { ...sheet.letterhead, logo: which } };
};
