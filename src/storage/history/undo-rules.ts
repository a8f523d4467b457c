import { Conflict } from '../../domain/kernel/errors.js';
import { CommissionRow } from '../rows/commissions/commission.row.js';
import { GarmentRow } from '../rows/commissions/garment.row.js';
import type { Writing } from '../session.js';
import type { ChangeRow } from './change.row.js';

/**
 * Rules that the rows alone do not hold, asked once an undoing has put them back: undoing runs no room's own checks.
 *
 * @throws Conflict, and nothing is undone
 */
export const mustHoldAfterUndo = async (writing: Writing, changes: readonly ChangeRow[]): Promise<void> => {
  const takenOut = changes.filter(({ in_table, before }) => in_table === 'garment' && before === null);
  for (const { after } of takenOut) {
    const { commission_id } = JSON.parse(after ?? '{}') as { commission_id: string };
    const stands = await writing.manager.existsBy(CommissionRow, { id: commission_id });
    if (stands && !(await writing.manager.existsBy(GarmentRow, { commission_id })))
      throw new Conflict('A commission holds at least one garment, and this is its last.', 'last-garment');
  }
};
