import { z } from 'zod';
import type { Studio } from '../../../domain/house/studio.js';
import { line, oneOf, optionalLines } from '../../../web/fields/fields.js';
import { sentKit, typedAs } from '../../../web/fields/kits.js';
import { readMoney } from '../../../web/words/amounts.js';

const UNWRITTEN = ['as-planned', 'none'] as const;

const said = {
  unwritten: oneOf(UNWRITTEN).default('as-planned'),
  words: optionalLines(4000),
};

/** What is said at a closing, as people write it. */
export const ReckoningForm = ({ identity }: Studio) =>
  z.strictObject({ ...said, price: typedAs((typed) => readMoney(typed, identity)) });

/** The same as a program sends it. */
export const ReckoningSent = (currency: string) =>
  z.strictObject({ ...said, price: sentKit(currency).optionalMoney() });

/** Why a closed garment is opened again. */
export const ReopenFields = z.strictObject({ reason: line('Say why it is opened again.', 1000) });
