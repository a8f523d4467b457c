import { In } from 'typeorm';
import type { QuoteAnswer } from '../../../domain/papers/quote/quote-answer.js';
import { QuoteAnswerRow } from '../../rows/papers/quote-answer.row.js';
import type { Reading, Writing } from '../../session.js';

/** The book of answers to quotes. Answers are added; one put down wrongly is taken back by another. */
export const quoteAnswerBook = {
  /** Every answer to these versions, oldest first, by the version's id. */
  async to(reading: Reading, quoteIds: readonly string[]): Promise<ReadonlyMap<string, QuoteAnswer[]>> {
    const answers = new Map<string, QuoteAnswer[]>(quoteIds.map((id) => [id, []]));
    const rows = await reading.manager.find(QuoteAnswerRow, {
      where: { quote_id: In([...quoteIds]) },
      order: { id: 'ASC' },
    });
    for (const row of rows) answers.get(row.quote_id)?.push(answerOf(row));
    return answers;
  },

  async put(
    writing: Writing,
    quoteId: string,
    answer: Omit<QuoteAnswer, 'id' | 'writtenAt'>,
  ): Promise<QuoteAnswer> {
    const row = await writing.insertForGood(QuoteAnswerRow, {
      id: writing.newId(),
      quote_id: quoteId,
      answer: answer.answer,
      answered_on: answer.answeredOn,
      by_whom: answer.byWhom,
      how: answer.how,
      words: answer.words,
      taken: answer.taken ? JSON.stringify(answer.taken) : null,
      corrects: answer.corrects ?? null,
      written_at: writing.at,
    });
    return answerOf(row);
  },
};

const answerOf = (row: QuoteAnswerRow): QuoteAnswer => ({
  id: row.id,
  answer: row.answer as QuoteAnswer['answer'],
  answeredOn: row.answered_on,
  byWhom: row.by_whom,
  how: row.how,
  words: row.words,
  taken: row.taken === null ? undefined : (JSON.parse(row.taken) as string[]),
  corrects: row.corrects ?? undefined,
  writtenAt: row.written_at,
});
