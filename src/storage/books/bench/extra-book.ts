import {
  answeredExtra,
  checkExtra,
  type Extra,
  type ExtraAnswer,
  type ExtraKind,
  type ExtraState,
  type ExtraWords,
  givenExtra,
} from '../../../domain/commissions/extra.js';
import type { Cause } from '../../../domain/costing/causes.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { Decimal } from '../../../domain/kernel/decimal.js';
import { NotFound } from '../../../domain/kernel/errors.js';
import { Money } from '../../../domain/kernel/money.js';
import type { TaxCategory } from '../../../domain/papers/tax/category.js';
import type { PricesInclude } from '../../../domain/papers/tax/tax-question.js';
import { ExtraRow } from '../../rows/bench/extra.row.js';
import type { Reading, Writing } from '../../session.js';
import { workOf, workText } from './work-text.js';

/** The book of extras. One is added as an offer and answered once; from then on nothing here changes it. */
export const extraBook = {
  /** @throws NotFound */
  async one(reading: Reading, id: string): Promise<Extra> {
    const row = await reading.manager.findOneBy(ExtraRow, { id });
    if (!row) throw new NotFound('extra');
    return extraOf(row);
  },

  /** By its number in the commission. @throws NotFound */
  async numbered(reading: Reading, commissionId: string, number: number): Promise<Extra> {
    const row = await reading.manager.findOneBy(ExtraRow, { commission_id: commissionId, number });
    if (!row) throw new NotFound('extra of this commission');
    return extraOf(row);
  },

  /** By number, in every state. */
  async ofCommission(reading: Reading, commissionId: string): Promise<Extra[]> {
    return extrasWhere(reading, { commission_id: commissionId });
  },

  /** By number, in every state. */
  async ofGarment(reading: Reading, garmentId: string): Promise<Extra[]> {
    return extrasWhere(reading, { garment_id: garmentId });
  },

  /**
   * Offers an extra under the next number of its commission. The number is never given again, so this cannot be undone; an
   * offer nobody wants is withdrawn.
   *
   * @throws Invalid per field
   */
  async add(writing: Writing, words: ExtraWords, offeredOn: CalendarDate): Promise<Extra> {
    checkExtra(words);
    const { commissionId, price, work } = words;
    const last = await writing.manager.maximum(ExtraRow, 'number', { commission_id: commissionId });
    return extraOf(
      await writing.insertForGood(ExtraRow, {
        id: writing.newId(),
        commission_id: commissionId,
        garment_id: words.garmentId,
        number: Number(last ?? 0) + 1,
        cause: words.cause,
        kind: words.kind,
        wording: words.wording,
        currency: price.currency,
        price: price.minor,
        prices_include: words.pricesInclude,
        tax_category: words.category,
        tax_rate: words.rate?.toFixed() ?? null,
        work: workText(work),
        due_before: words.dueBefore ?? null,
        due_after: words.dueAfter ?? null,
        takes_back_id: words.takesBack ?? null,
        offered_on: offeredOn,
        state: 'offered',
        answered_on: null,
        by_whom: '',
        how: '',
        words: '',
        written_at: writing.at,
      }),
    );
  },

  /**
   * Keeps an answer for good: agreed, declined or withdrawn.
   *
   * @throws Conflict when it was answered before; Stale when it has changed since `seen`
   */
  async answer(
    writing: Writing,
    id: string,
    state: Exclude<ExtraState, 'offered'>,
    answer: ExtraAnswer,
    today: CalendarDate,
    seen?: number,
  ): Promise<Extra> {
    return keepAnswer(writing, answeredExtra(await this.one(writing, id), state, answer, today), seen);
  },

  /** Gives an extra with the studio's compliments, at no price, for good. @throws Conflict when it was agreed before */
  async give(
    writing: Writing,
    id: string,
    answer: ExtraAnswer,
    today: CalendarDate,
    seen?: number,
  ): Promise<Extra> {
    return keepAnswer(writing, givenExtra(await this.one(writing, id), answer, today), seen);
  },

  /** Agreed, for good. @see extraBook.answer */
  async agree(
    writing: Writing,
    id: string,
    answer: ExtraAnswer,
    today: CalendarDate,
    seen?: number,
  ): Promise<Extra> {
    return this.answer(writing, id, 'agreed', answer, today, seen);
  },
};

const keepAnswer = async (writing: Writing, { id, ...extra }: Extra, seen?: number): Promise<Extra> => {
  writing.forGood();
  return extraOf(
    await writing.update(
      ExtraRow,
      id,
      {
        state: extra.state,
        kind: extra.kind,
        price: extra.price.minor,
        answered_on: extra.answer?.on ?? null,
        by_whom: extra.answer?.byWhom ?? '',
        how: extra.answer?.how ?? '',
        words: extra.answer?.words ?? '',
      },
      seen,
    ),
  );
};

const extrasWhere = async (reading: Reading, where: object): Promise<Extra[]> =>
  (await reading.manager.find(ExtraRow, { where, order: { number: 'ASC' } })).map(extraOf);

const extraOf = (row: ExtraRow): Extra => ({
  id: row.id,
  version: row.version,
  commissionId: row.commission_id,
  garmentId: row.garment_id,
  number: row.number,
  cause: row.cause as Cause,
  kind: row.kind as ExtraKind,
  wording: row.wording,
  price: Money.ofMinor(row.price, row.currency),
  pricesInclude: row.prices_include as PricesInclude,
  category: row.tax_category as TaxCategory,
  rate: row.tax_rate === null ? undefined : new Decimal(row.tax_rate),
  work: workOf(row.work, row.currency),
  dueBefore: row.due_before ?? undefined,
  dueAfter: row.due_after ?? undefined,
  takesBack: row.takes_back_id ?? undefined,
  offeredOn: row.offered_on,
  state: row.state as ExtraState,
  answer:
    row.answered_on === null
      ? undefined
      : { on: row.answered_on, byWhom: row.by_whom, how: row.how, words: row.words },
  writtenAt: row.written_at,
});
