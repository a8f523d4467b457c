import type { BillableExtra } from '../../../domain/papers/invoice/draft-invoice.js';
import type { Reading } from '../../session.js';

/** The extras of a commission that were agreed and can be asked for. None while no book of extras is kept. */
export const billableOf = async (_reading: Reading, _commissionId: string): Promise<BillableExtra[]> => [];
