import { In } from 'typeorm';
import { InvoiceRow } from '../rows/papers/invoice.row.js';
import { IssuedQuoteRow } from '../rows/papers/issued-quote.row.js';
import type { Reading } from '../session.js';
import type { ActRow } from './act.row.js';
import type { ChangeRow } from './change.row.js';
import type { WhyNot } from './why-not-undo.js';

/** Records that are only ever added: they stay for their own sake, whatever was issued afterwards. */
const ONLY_ADDED = new Set(
  `issued_quote quote_answer invoice invoice_cite paper_sent payment allocation receipt bench_entry garment_mark extra
   stock_entry stock_part purchase money_out paid_out photo`.split(/\s+/),
);

const commissionOf = ({ subject }: ActRow): string | undefined => /^commission\/([^/]+)/.exec(subject)?.[1];

/**
 * Why a sealed act stays on record, with the paper that was issued on it named: the first one after it.
 *
 * @param changesByAct what each of the acts changed
 */
export const sealedBy = async (
  reading: Reading,
  acts: readonly ActRow[],
  changesByAct: ReadonlyMap<string, readonly ChangeRow[]>,
): Promise<Map<string, WhyNot>> => {
  const sealed = acts.filter(
    (act) =>
      !act.undoable &&
      !act.undone_by &&
      commissionOf(act) !== undefined &&
      !(changesByAct.get(act.id) ?? []).some(({ in_table }) => ONLY_ADDED.has(in_table)),
  );
  const ids = [...new Set(sealed.flatMap((act) => commissionOf(act) ?? []))];
  if (ids.length === 0) return new Map();
  const asked = {
    select: { id: true, commission_id: true, number: true, issued_at: true },
    where: { commission_id: In(ids) },
  } as const;
  const papers = [
    ...(await reading.manager.find(IssuedQuoteRow, asked)).map((row) => ({ ...row, kind: 'Quote' })),
    ...(await reading.manager.find(InvoiceRow, asked)).map((row) => ({ ...row, kind: 'Invoice' })),
  ].toSorted((a, b) => a.issued_at.localeCompare(b.issued_at));
  return new Map(
    sealed.flatMap((act) => {
      const paper = papers.find(
        ({ commission_id, issued_at }) => commission_id === commissionOf(act) && issued_at >= act.at,
      );
      return paper
        ? [
            [
              act.id,
              {
                code: 'sealed',
                sentence: `${paper.kind} ${paper.number} was issued on it, so it stays on record. Correct it forward instead.`,
              },
            ] as const,
          ]
        : [];
    }),
  );
};
