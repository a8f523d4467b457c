import { readLength } from '../../../src/domain/measuring/length-entry.js';
import type { MeasuredValue, MeasurementSet } from '../../../src/domain/measuring/measurement-set.js';
import { confirmed } from '../../../src/domain/measuring/reading.js';

export const taken = (dimension: string, typed: string, stoodBy = false): MeasuredValue => {
  const reading = confirmed(readLength(typed, { preferred: 'cm', signed: true }), true);
  if (reading.kind !== 'ok') throw new Error(`“${typed}” is not a length`);
  return { dimension, entry: reading.value, confirmed: stoodBy };
};

export const aSet = (
  typed: Readonly<Record<string, string>>,
  change: Partial<MeasurementSet> = {},
): MeasurementSet => ({
  id: 'set-1',
  wearer: 'wearer-1',
  takenOn: '2026-03-02',
  takenBy: 'Odalys Fenwright',
  over: 'shirt and trousers',
  figuration: 'erect',
  values: Object.entries(typed).map(([dimension, text]) => taken(dimension, text)),
  ...change,
});
