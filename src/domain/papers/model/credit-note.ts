import type { CalendarDate } from '../../kernel/calendar-date.js';
import { Invalid } from '../../kernel/errors.js';
import type { TaxCategory } from '../tax/category.js';
import type { DraftLine, PaperDraft } from './make-paper.js';
import type { Paper } from './paper.js';

/**
 * The draft of a credit note for an issued invoice: its lines, allowances and charges once more, with positive amounts as
 * type 381 has them, citing the invoice. Nothing was paid beforehand on a credit note.
 *
 * @param invoice issued: it has a number
 * @param issued the credit note's own date
 * @param reason why, in words (BT-22)
 * @param lines other lines when only a part is credited; then the whole-document allowances and charges stay out
 * @throws Invalid when the invoice has no number yet or is itself no invoice
 * @see EN 16931-1 BT-3 code 381, BG-3; VAT Directive 2006/112/EC art. 219; test/domain/papers/model.test.ts
 */
export const creditNoteFor = (
  invoice: Paper,
  issued: CalendarDate,
  reason: string,
  lines?: readonly DraftLine[],
): PaperDraft => {
  const number = invoice['BT-1'];
  if (!number || invoice['BT-3'] === undefined || invoice.kind === 'credit-note')
    throw new Invalid('Only an issued invoice can be credited.');
  const {
    'BT-3': _code,
    'BG-20': off,
    'BG-21': on,
    'BG-22': totals,
    'BG-23': groups,
    'BG-25': all,
    unreached: _u,
    ...head
  } = invoice;
  const reasons = Object.fromEntries(
    groups.filter((group) => group['BT-120']).map((group) => [group['BT-118'], group['BT-120']]),
  ) as Partial<Record<TaxCategory, string>>;
  return {
    head: {
      ...head,
      kind: 'credit-note',
      'BT-1': undefined,
      'BT-2': issued,
      'BT-9': undefined,
      'BT-20': undefined,
      'BT-22': reason,
      'BG-3': [{ 'BT-25': number, 'BT-26': invoice['BT-2'] }],
    },
    lines:
      lines ??
      all.map((line) => ({
        name: line['BT-153'],
        description: line['BT-154'],
        quantity: line['BT-129'],
        unit: line['BT-130'],
        price: line['BT-146'],
        baseQuantity: line['BT-149'],
        category: line['BT-151'],
        rate: line['BT-152'],
        allowances: line['BG-27'].map((each) => ({
          amount: each['BT-136'],
          reason: each['BT-139'] ?? reason,
        })),
        charges: line['BG-28'].map((each) => ({ amount: each['BT-141'], reason: each['BT-144'] ?? reason })),
      })),
    allowances: lines
      ? []
      : off.map((each) => ({
          amount: each['BT-92'],
          category: each['BT-95'],
          rate: each['BT-96'],
          reason: each['BT-97'] ?? reason,
        })),
    charges: lines
      ? []
      : on.map((each) => ({
          amount: each['BT-99'],
          category: each['BT-102'],
          rate: each['BT-103'],
          reason: each['BT-104'] ?? reason,
        })),
    rounding: lines ? undefined : totals['BT-114'],
    taxReasons: reasons,
  };
};
