import { Invalid, Trouble } from '../../kernel/errors.js';
import { Money } from '../../kernel/money.js';
import type { Paper } from '../model/paper.js';
import { isCreditorReference, plainReference } from './creditor-reference.js';
import { isIban, plainIban, readIban } from './iban.js';

/** A credit transfer in euro, as a code on a paper asks for it. */
export type EpcTransfer = {
  /** Whose account it is, at most 70 characters. */
  readonly name: string;
  readonly iban: string;
  readonly bic?: string;
  /** 0.01 to 999 999 999.99 euro. */
  readonly amount: Money;
  /** A creditor reference of ISO 11649, or at most 140 characters of text: never both. */
  readonly reference?: string;
  readonly text?: string;
};

/** The most a code of version 13 with error correction M holds. */
const MOST_BYTES = 331;
const LEAST = Money.ofMinor(1, 'EUR');
const MOST = Money.ofMinor(99_999_999_999, 'EUR');

const length = (text: string): number => [...text].length;

/** Element ends are line ends, so no element may hold one; control characters have no meaning here. */
const oneLine = (text: string): string =>
  text
    .replace(/[^\u{20}-\u{7E}\u{A0}-\u{D7FF}\u{E000}-\u{FFFD}\u{10000}-\u{10FFFF}]/gu, ' ')
    .replace(/[\s\u2028\u2029]+/g, ' ')
    .trim();

const bicOf = (text: string | undefined): string => {
  const bic = (text ?? '').replace(/\s/g, '').toUpperCase();
  if (bic !== '' && !/^[A-Z]{4}[A-Z]{2}[A-Z0-9]{2}([A-Z0-9]{3})?$/.test(bic))
    throw Invalid.field('bic', `“${bic.slice(0, 20)}” is not the code of a bank: it has 8 or 11 signs.`);
  return bic;
};

const remittance = (transfer: EpcTransfer): [structured: string, text: string] => {
  const text = oneLine(transfer.text ?? '');
  if (transfer.reference === undefined) {
    if (length(text) > 140) throw Invalid.field('text', 'The text of a transfer has at most 140 characters.');
    return ['', text];
  }
  if (text !== '') throw Invalid.field('text', 'A transfer carries a reference or a text, not both.');
  if (!isCreditorReference(transfer.reference))
    throw Invalid.field('reference', 'The check digits of this creditor reference do not hold.');
  return [plainReference(transfer.reference), ''];
};

/**
 * What a payment code says: a SEPA credit transfer, version 002, UTF-8, elements one a line, the last without a line end.
 *
 * @param transfer amount in EUR
 * @returns at most 331 bytes of UTF-8
 * @throws Invalid naming the field (`name`, `iban`, `bic`, `amount`, `reference`, `text`) that cannot be meant, or when the
 * whole has more bytes than the code may hold
 * @see European Payments Council, EPC069-12 (quick response code for a SEPA credit transfer);
 * test/domain/papers/payment/epc-payload.test.ts
 */
export const epcPayload = (transfer: EpcTransfer): string => {
  const name = oneLine(transfer.name);
  if (name === '' || length(name) > 70)
    throw Invalid.field('name', 'The name of the account holder has 1 to 70 characters.');
  const { amount } = transfer;
  if (amount.currency !== 'EUR') throw Invalid.field('amount', 'A payment code asks for euro only.');
  if (amount.compare(LEAST) < 0 || amount.compare(MOST) > 0)
    throw Invalid.field('amount', 'A payment code asks for 0.01 to 999999999.99 euro.');
  const elements = [
    'BCD',
    '002',
    '1',
    'SCT',
    bicOf(transfer.bic),
    name,
    readIban(transfer.iban),
    `EUR${amount}`,
    '',
    ...remittance(transfer),
  ];
  const payload = elements.join('\n').replace(/\n+$/, '');
  if (new TextEncoder().encode(payload).length > MOST_BYTES)
    throw new Invalid(`A payment code holds at most ${MOST_BYTES} bytes. Shorten the name or the text.`);
  return payload;
};

/** A payload, or why a paper can have none. */
export type EpcOffer = { readonly payload: string } | { readonly without: string };

/**
 * The payment code's words for a paper that asks for euro on a bank account.
 *
 * The name is the account holder's (BT-85), else the house's (BT-27), cut to 70 characters. The reference is BT-83 when its
 * check digits hold; otherwise BT-83, or the paper's number, goes in as text, cut to 140 characters.
 *
 * @param paper issued or in preview
 * @returns the payload, or a sentence that says why there is no code
 * @see EPC069-12; test/domain/papers/payment/epc-payload.test.ts
 */
export const epcOffer = (paper: Paper): EpcOffer => {
  const terms = paper['BG-16'];
  const due = paper['BG-22']['BT-115'];
  const iban = terms?.['BT-84'];
  if (paper['BT-3'] === undefined || paper.kind === 'credit-note')
    return { without: 'Only an invoice asks for money.' };
  if (paper['BT-5'] !== 'EUR') return { without: 'A payment code asks for euro only.' };
  if (!iban || !isIban(iban)) return { without: 'The paper names no IBAN to pay to.' };
  if (due.minor <= 0) return { without: 'Nothing is left to pay.' };
  const cut = (text: string | undefined, most: number): string =>
    [...oneLine(text ?? '')].slice(0, most).join('').trim();
  const stated = terms['BT-83'];
  const structured = stated !== undefined && isCreditorReference(stated);
  try {
    return {
      payload: epcPayload({
        name: cut(terms['BT-85'], 70) || cut(paper['BG-4']['BT-27'], 70),
        iban: plainIban(iban),
        bic: terms['BT-86'],
        amount: due,
        reference: structured ? stated : undefined,
        text: structured ? undefined : cut(stated, 140) || cut(paper['BT-1'], 140),
      }),
    };
  } catch (error) {
    if (error instanceof Trouble) return { without: error.message };
    throw error;
  }
};
