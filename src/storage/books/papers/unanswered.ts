import { IssuedQuoteRow } from '../../rows/papers/issued-quote.row.js';
import type { Reading } from '../../session.js';

/** Which of these commissions were quoted and have no answer that stands: the work is offered, not ordered. */
export const unanswered = async (
  reading: Reading,
  commissionIds: readonly string[],
): Promise<ReadonlySet<string>> => {
  if (commissionIds.length === 0) return new Set();
  const rows = await reading.manager
    .createQueryBuilder(IssuedQuoteRow, 'quote')
    .select('quote.commission_id', 'id')
    .distinct(true)
    .where('quote.commission_id IN (:...ids)', { ids: [...new Set(commissionIds)] })
    .andWhere(
      `NOT EXISTS (SELECT 1 FROM issued_quote other JOIN quote_answer answer ON answer.quote_id = other.id
        WHERE other.commission_id = quote.commission_id AND answer.answer = 'accepted'
        AND NOT EXISTS (SELECT 1 FROM quote_answer back WHERE back.quote_id = answer.quote_id AND back.corrects = answer.id))`,
    )
    .getRawMany<{ id: string }>();
  return new Set(rows.map(({ id }) => id));
};
