import { Invalid } from '../../domain/kernel/errors.js';

/** The field of the form in which a mark is chosen. */
export const MARK_FIELD = 'mark';
export const refusedMark = (text: string): Invalid => Invalid.field(MARK_FIELD, text);
