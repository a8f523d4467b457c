import { z } from 'zod';
import { line, whole } from '../../../web/fields/fields.js';

/** What is asked before somebody is erased. */
export const ErasureFields = z.strictObject({ number: line('Write the number of this client.', 40) });

/** How long something is kept on somebody who does not come any more. */
export const KeepingFields = z
  .strictObject({ years: whole(1, 30), childYears: whole(1, 30) })
  .refine(({ years, childYears }) => childYears <= years, {
    path: ['childYears'],
    message: 'Of a child no longer than of a grown-up.',
  });
