import { z } from 'zod';
import { Decimal, readDecimal } from '../../../../domain/kernel/decimal.js';
import type { FieldTrouble } from '../../../../domain/kernel/errors.js';
import { Invalid } from '../../../../domain/kernel/errors.js';
import { handStitching } from '../../../../domain/making/hand-stitching.js';
import { DRIVERS, MODES, STAGES } from '../../../../domain/making/mode.js';
import {
  type HandStitchSpec,
  type ModeShare,
  type Operation,
  operation,
} from '../../../../domain/making/operation.js';
import { foldTyped } from '../../../../domain/measuring/typed-text.js';
import { line, oneOf, optionalLine, yesNo } from '../../../../web/fields/fields.js';
import { typedAs } from '../../../../web/fields/kits.js';
import { nothingTyped, type Reading, refused, understood } from '../../../../web/words/reading.js';
import { readPercent, shareForField } from '../../../../web/words/shares.js';
import { minutesEachForField, readMinutesEach } from '../minutes-each.js';
import { readQuantity } from '../read-quantity.js';

const MM: Readonly<Record<string, string>> = {
  mm: '1',
  cm: '10',
  m: '1000',
  in: '25.4',
  '"': '25.4',
  yd: '914.4',
};

/** Reads a length of seam or thread: `180`, `180 cm`, `2 m`, `70 in`; a bare number is centimetres. @returns millimetres */
const readSeam = (typed: string): Reading<Decimal> => {
  const text = foldTyped(typed).replace(',', '.');
  if (text === '') return nothingTyped;
  const [, figures = '', unit = 'cm'] = /^([\d.]{1,12}) ?(mm|cm|m|in|"|yd)?\.?$/.exec(text) ?? [];
  const value = readDecimal(figures);
  return value?.lte(1_000_000)
    ? understood(value.times(MM[unit] ?? '10'))
    : refused('Write a length such as 180 cm, 2 m or 70 in.');
};

const shareFields = Object.fromEntries(
  MODES.map((mode) => [`share-${mode}`, typedAs((typed) => readPercent(typed))]),
) as Record<`share-${(typeof MODES)[number]}`, ReturnType<typeof typedAs<Decimal>>>;

/** The fields of an operation's page. */
export const OperationForm = z.strictObject({
  name: line('What is to be done? Write a few words.', 200),
  stage: oneOf(STAGES, 'Choose a stage.'),
  mode: oneOf(MODES, 'Choose a mode.'),
  ...shareFields,
  basting: yesNo(),
  driver: oneOf(DRIVERS, 'Choose what it goes by.'),
  quantity: typedAs(readQuantity, 'Write how many.'),
  fixedMinutes: typedAs(readMinutesEach),
  minutesPerUnit: typedAs(readMinutesEach),
  seamLength: typedAs(readSeam),
  stitchesPerCm: typedAs(readQuantity),
  stitchesPerMinute: typedAs(readQuantity),
  threadUse: typedAs(readQuantity),
  needleful: typedAs(readSeam),
  changeMinutes: typedAs(readQuantity),
  shownToClient: yesNo(),
  clientWording: optionalLine(400),
});

type Said = z.output<typeof OperationForm>;

const SEAM_FIELDS: Readonly<Record<string, string>> = {
  lengthMm: 'seamLength',
  'thread.perSeamLength': 'threadUse',
  'thread.lengthMm': 'needleful',
  'thread.changeMinutes': 'changeMinutes',
};

const missing = (field: string, text: string): FieldTrouble => ({ field, text });

/** The hand seam said, where any of it was; all of it is needed then. @throws Invalid naming the fields that are missing */
const seamOf = (said: Said): HandStitchSpec | undefined => {
  const { seamLength, stitchesPerCm, stitchesPerMinute, threadUse, needleful, changeMinutes } = said;
  if (!seamLength && !stitchesPerCm && !stitchesPerMinute) return undefined;
  const anyThread = threadUse ?? needleful ?? changeMinutes;
  const troubles = [
    ...(seamLength ? [] : [missing('seamLength', 'Give the length of the seam.')]),
    ...(stitchesPerCm ? [] : [missing('stitchesPerCm', 'Give stitches to the centimetre.')]),
    ...(stitchesPerMinute ? [] : [missing('stitchesPerMinute', 'Give the pace in stitches a minute.')]),
    ...(anyThread && !threadUse
      ? [missing('threadUse', 'Give how many times the seam’s length of thread it takes.')]
      : []),
    ...(anyThread && !needleful ? [missing('needleful', 'Give the length of one needleful.')] : []),
    ...(anyThread && !changeMinutes ? [missing('changeMinutes', 'Give the minutes of one change.')] : []),
  ];
  if (!seamLength || !stitchesPerCm || !stitchesPerMinute || troubles.length > 0)
    throw new Invalid(troubles[0]!.text, troubles);
  return {
    lengthMm: seamLength,
    stitchesPerCm,
    stitchesPerMinute,
    ...(threadUse && needleful && changeMinutes
      ? { thread: { perSeamLength: threadUse, lengthMm: needleful, changeMinutes } }
      : {}),
  };
};

/** Minutes of a hand seam, with troubles named as the form names its fields. @returns minutes to six decimals */
export const minutesOfSeam = (seam: HandStitchSpec): Decimal => {
  try {
    return handStitching(seam).minutes.toDecimalPlaces(6);
  } catch (error) {
    if (!(error instanceof Invalid)) throw error;
    throw new Invalid(
      error.message,
      error.fields.map(({ field, text }) => ({ field: SEAM_FIELDS[field] ?? field, text })),
    );
  }
};

const timesOf = (said: Said, seam: HandStitchSpec | undefined) => {
  const nought = new Decimal(0);
  const once = said.driver === 'once';
  const reckoned = seam && minutesOfSeam(seam);
  const fixed = once ? (reckoned ?? said.fixedMinutes) : said.fixedMinutes;
  const per = once ? undefined : (reckoned ?? said.minutesPerUnit);
  return {
    fixedMinutes: fixed ?? nought,
    minutesPerUnit: per ?? nought,
    needsMinutes: fixed === undefined && per === undefined,
  };
};

const sharesOf = (said: Said): ModeShare[] =>
  MODES.flatMap((mode) => {
    const share = said[`share-${mode}`];
    return share && !share.isZero() ? [{ mode, share }] : [];
  });

/** An operation as its page says it. @throws Invalid naming every field at fault */
export const operationSaid = (present: Operation, said: Said): Operation => {
  const { handStitch: _, ...rest } = present;
  const seam = seamOf(said);
  const times = timesOf(said, seam);
  const shares = sharesOf(said);
  const isAsBefore =
    times.fixedMinutes.eq(present.fixedMinutes) && times.minutesPerUnit.eq(present.minutesPerUnit);
  try {
    return operation({
      ...rest,
      name: said.name,
      stage: said.stage,
      mode: shares.length === 1 ? shares[0]!.mode : said.mode,
      modeShares: shares.length > 1 || (shares[0] && !shares[0].share.eq(1)) ? shares : [],
      basting: said.basting,
      driver: said.driver,
      quantity: said.driver === 'once' ? new Decimal(1) : (said.quantity ?? new Decimal(1)),
      ...times,
      fromStartingValues: present.fromStartingValues && isAsBefore,
      ...(seam ? { handStitch: seam } : {}),
      shownToClient: said.shownToClient,
      clientWording: said.clientWording,
    });
  } catch (error) {
    if (!(error instanceof Invalid)) throw error;
    throw new Invalid(
      error.message,
      error.fields.map(({ field, text }) => ({ field: field === 'modeShares' ? 'share-hand' : field, text })),
    );
  }
};

/** An operation as its page's fields. */
export const typedOperation = (one: Operation): Record<string, string> => {
  const { handStitch: seam } = one;
  const cm = (mm: Decimal | undefined): string => (mm ? mm.div(10).toFixed() : '');
  return {
    name: one.name,
    stage: one.stage,
    mode: one.mode,
    ...Object.fromEntries(one.modeShares.map(({ mode, share }) => [`share-${mode}`, shareForField(share)])),
    basting: one.basting ? 'yes' : 'no',
    driver: one.driver,
    quantity: one.quantity.toFixed(),
    fixedMinutes: one.needsMinutes || one.fixedMinutes.isZero() ? '' : minutesEachForField(one.fixedMinutes),
    minutesPerUnit:
      one.needsMinutes || one.minutesPerUnit.isZero() ? '' : minutesEachForField(one.minutesPerUnit),
    seamLength: cm(seam?.lengthMm),
    stitchesPerCm: seam?.stitchesPerCm.toFixed() ?? '',
    stitchesPerMinute: seam?.stitchesPerMinute.toFixed() ?? '',
    threadUse: seam?.thread?.perSeamLength.toFixed() ?? '',
    needleful: cm(seam?.thread?.lengthMm),
    changeMinutes: seam?.thread?.changeMinutes.toFixed() ?? '',
    shownToClient: one.shownToClient ? 'yes' : 'no',
    clientWording: one.clientWording,
  };
};
