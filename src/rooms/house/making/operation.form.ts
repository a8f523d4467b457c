import { z } from 'zod';
import { Decimal } from '../../../domain/kernel/decimal.js';
import type { KnownOperation } from '../../../domain/making/known-operation.js';
import { DRIVERS, MODES, STAGES } from '../../../domain/making/mode.js';
import { line, oneOf, yesNo } from '../../../web/fields/fields.js';
import { type FieldKit, sentKit, typedAs, typedKit } from '../../../web/fields/kits.js';
import { parseForm } from '../../../web/forms/parse.js';
import type { Typed } from '../../../web/forms/typed.js';
import { minutesForField, readDuration } from '../../../web/words/durations.js';
import { mapReading } from '../../../web/words/reading.js';

/** What is said about an operation; the rest is the studio's. */
export type OperationSaid = Pick<
  KnownOperation,
  | 'name'
  | 'stage'
  | 'mode'
  | 'driver'
  | 'typicalCount'
  | 'fixedMinutes'
  | 'minutesPerUnit'
  | 'basting'
  | 'isAlternative'
>;

const MOST_MINUTES = 60_000;
const nought = new Decimal(0);

const fields = (kit: FieldKit, fixed: z.ZodType<Decimal | undefined>) =>
  z
    .strictObject({
      name: line('Name the operation.', 200),
      stage: oneOf(STAGES, 'Choose its stage.'),
      mode: oneOf(MODES, 'Choose how it is done.'),
      driver: oneOf(DRIVERS, 'Choose what it goes by.'),
      typicalCount: kit.optionalNumber({ most: 1_000_000 }),
      fixedMinutes: fixed,
      minutesPerUnit: kit.optionalNumber({ most: MOST_MINUTES }),
      basting: yesNo(),
      isAlternative: yesNo(),
    })
    .refine((said) => said.fixedMinutes?.gt(0) || (said.driver !== 'once' && said.minutesPerUnit?.gt(0)), {
      path: ['fixedMinutes'],
      message: 'Say how long it takes, once or for each.',
    })
    .transform(
      (said): OperationSaid => ({
        ...said,
        typicalCount: said.driver === 'once' ? new Decimal(1) : (said.typicalCount ?? new Decimal(1)),
        fixedMinutes: said.fixedMinutes ?? nought,
        minutesPerUnit: said.driver === 'once' ? nought : (said.minutesPerUnit ?? nought),
      }),
    );

const readFixed = (typed: string) =>
  mapReading(
    readDuration(typed, { bare: 'minutes', askAbove: MOST_MINUTES }),
    (minutes) => new Decimal(minutes),
  );

/** Reads the form of an operation. @throws Invalid */
export const readOperation = (typed: Typed, locale: string): OperationSaid =>
  parseForm(fields(typedKit({ currency: 'EUR', locale }), typedAs(readFixed)), typed);

const kit = sentKit('EUR');
/** An operation as a program sends it; minutes as decimals. */
export const OperationSent = fields(kit, kit.optionalNumber({ most: MOST_MINUTES }));

export const typedOperation = (known: KnownOperation): Record<string, string> => ({
  name: known.name,
  stage: known.stage,
  mode: known.mode,
  driver: known.driver,
  typicalCount: known.typicalCount.toFixed(),
  fixedMinutes: known.fixedMinutes.isInteger()
    ? minutesForField(known.fixedMinutes.toNumber())
    : `${known.fixedMinutes.toFixed()} min`,
  minutesPerUnit: known.minutesPerUnit.toFixed(),
  basting: known.basting ? 'yes' : '',
  isAlternative: known.isAlternative ? 'yes' : '',
});

/** A type's name in one and in many. */
export const TypeSaid = z.strictObject({
  name: line('Name the garment type, such as smock.', 120),
  plural: line('Say it of several, such as smocks.', 120),
});
