import { NotFound } from '../../../domain/kernel/errors.js';
import type { DraftChoices } from '../../../domain/papers/quote/draft-choices.js';
import { QuoteDraftRow } from '../../rows/papers/quote-draft.row.js';
import type { Reading, Writing } from '../../session.js';
import { studioBook } from '../studio-book.js';
import { choicesOf, documentText } from './quote-text.js';

/** A quote in the making. */
export type KeptDraft = {
  readonly id: string;
  readonly version: number;
  readonly commissionId: string;
  /** The number it will be the next version of; none for a quote of its own. */
  readonly number: string | undefined;
  /** The issued version whose prices it keeps; none when it is priced as the commission stands. */
  readonly pricesOf: string | undefined;
  readonly choices: DraftChoices;
};

/** The book of quotes in the making. */
export const quoteDraftBook = {
  /** @throws NotFound also when the draft is another commission's */
  async one(reading: Reading, commissionId: string, id: string): Promise<KeptDraft> {
    const row = await reading.manager.findOneBy(QuoteDraftRow, { id, commission_id: commissionId });
    if (!row) throw new NotFound('draft of a quote; it may have been issued');
    return draftOf(row, await currencyOf(reading));
  },

  /** A commission's drafts, newest first. */
  async ofCommission(reading: Reading, commissionId: string): Promise<KeptDraft[]> {
    const rows = await reading.manager.find(QuoteDraftRow, {
      where: { commission_id: commissionId },
      order: { id: 'DESC' },
    });
    const currency = rows.length > 0 ? await currencyOf(reading) : '';
    return rows.map((row) => draftOf(row, currency));
  },

  async begin(writing: Writing, draft: Omit<KeptDraft, 'id' | 'version'>): Promise<KeptDraft> {
    const row = await writing.insert(QuoteDraftRow, {
      id: writing.newId(),
      commission_id: draft.commissionId,
      number: draft.number ?? null,
      prices_of: draft.pricesOf ?? null,
      choices: documentText(draft.choices),
    });
    return draftOf(row, await currencyOf(writing));
  },

  /** @throws Stale when it has changed since `seen` */
  async choose(writing: Writing, id: string, choices: DraftChoices, seen?: number): Promise<KeptDraft> {
    const row = await writing.update(QuoteDraftRow, id, { choices: documentText(choices) }, seen);
    return draftOf(row, await currencyOf(writing));
  },

  /** @throws Stale when it has changed since `seen` */
  async remove(writing: Writing, id: string, seen?: number): Promise<void> {
    await writing.remove(QuoteDraftRow, id, seen);
  },
};

const currencyOf = async (reading: Reading): Promise<string> =>
  (await studioBook.the(reading)).identity.currency;

const draftOf = (row: QuoteDraftRow, currency: string): KeptDraft => ({
  id: row.id,
  version: row.version,
  commissionId: row.commission_id,
  number: row.number ?? undefined,
  pricesOf: row.prices_of ?? undefined,
  choices: choicesOf(row.choices, currency),
});
