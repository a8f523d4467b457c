import { Decimal } from '../../../domain/kernel/decimal.js';
import { type FieldTrouble, Invalid } from '../../../domain/kernel/errors.js';
import { type Operation, operation } from '../../../domain/making/operation.js';
import type { Typed } from '../../../web/forms/typed.js';
import { fieldAnswer } from '../../../web/words/reading.js';
import { minutesEach, minutesEachForField, readMinutesEach } from './minutes-each.js';
import { readQuantity } from './read-quantity.js';

/** The fields of a plan that are written in place. */
export const WRITTEN_IN_PLACE = ['quantity', 'minutes', 'shown'] as const;
export type InPlace = (typeof WRITTEN_IN_PLACE)[number];
export type InPlaceTexts = Readonly<Record<InPlace, string>>;

/** One field of one operation that was typed anew: what stood there when it was read, and what stands there now. */
export type PlanEdit = {
  readonly id: string;
  readonly field: InPlace;
  readonly was: string;
  readonly typed: string;
};

export const fieldName = (id: string, field: InPlace | 'was'): string => `op.${id}.${field}`;

/** An operation as the texts of its fields. */
export const textsOf = (one: Operation): InPlaceTexts => {
  const minutes = minutesEach(one);
  return {
    quantity: one.quantity.toFixed(),
    minutes: minutes === undefined ? '' : minutesEachForField(minutes),
    shown: one.shownToClient ? 'yes' : 'no',
  };
};

/** What stood in the fields, kept in the form, so that only what a person typed anew is a change. */
export const wasText = (texts: InPlaceTexts): string =>
  WRITTEN_IN_PLACE.map((field) => texts[field]).join('|');

/** The fields that were typed anew. */
export const editsOf = (typed: Typed): PlanEdit[] =>
  Object.entries(typed).flatMap(([name, was]) => {
    const id = /^op\.([^.]{1,60})\.was$/.exec(name)?.[1];
    if (id === undefined) return [];
    const texts = was.split('|');
    return WRITTEN_IN_PLACE.flatMap((field, place) => {
      const now = typed[fieldName(id, field)]?.trim();
      const before = texts[place] ?? '';
      return now === undefined || now === before ? [] : [{ id, field, was: before, typed: now }];
    });
  });

/** An operation with one of its fields as typed. @throws Invalid naming the field */
export const edited = (one: Operation, { id, field, typed }: Pick<PlanEdit, 'id' | 'field' | 'typed'>) => {
  if (field === 'shown') return { ...one, shownToClient: typed === 'yes' };
  const changed = field === 'quantity' ? withQuantity(one, typed, id) : withMinutes(one, typed, id);
  return checked(changed, id);
};

const withQuantity = (one: Operation, typed: string, id: string): Operation => {
  const { value, trouble } = fieldAnswer(
    fieldName(id, 'quantity'),
    readQuantity(typed),
    'Write how many, or take the operation out.',
  );
  if (trouble || value === undefined) throw Invalid.field(trouble!.field, trouble!.text);
  if (one.driver !== 'once' || value.eq(1)) return { ...one, quantity: value };
  // What is done once but wanted several times goes by each from then on.
  const each = one.fixedMinutes.plus(one.minutesPerUnit);
  return { ...one, driver: 'each', quantity: value, fixedMinutes: new Decimal(0), minutesPerUnit: each };
};

const withMinutes = (one: Operation, typed: string, id: string): Operation => {
  const { value, trouble } = fieldAnswer(fieldName(id, 'minutes'), readMinutesEach(typed));
  if (trouble) throw Invalid.field(trouble.field, trouble.text);
  const { handStitch: _, ...rest } = one;
  const nought = new Decimal(0);
  if (value === undefined)
    return { ...rest, needsMinutes: true, fixedMinutes: nought, minutesPerUnit: nought };
  const own = { ...rest, needsMinutes: false, fromStartingValues: false };
  return one.driver === 'once'
    ? { ...own, fixedMinutes: value, minutesPerUnit: nought }
    : { ...own, minutesPerUnit: value };
};

const checked = (changed: Operation, id: string): Operation => {
  try {
    return operation(changed);
  } catch (error) {
    if (!(error instanceof Invalid)) throw error;
    throw new Invalid(
      error.message,
      error.fields.map((one) => ({
        field: fieldName(id, one.field === 'quantity' ? 'quantity' : 'minutes'),
        text: one.text,
      })),
    );
  }
};

/**
 * A plan with the edits in it.
 *
 * @param isLenient leaves out what cannot be meant yet, for the sum while somebody is typing
 * @throws Invalid naming every field at fault
 */
export const withEdits = <T extends Operation>(
  plan: readonly T[],
  edits: readonly PlanEdit[],
  isLenient = false,
): Operation[] => {
  const troubles: FieldTrouble[] = [];
  const changed = plan.map((one) =>
    edits
      .filter(({ id }) => id === one.id)
      .reduce<Operation>((so, edit) => {
        try {
          return edited(so, edit);
        } catch (error) {
          if (!(error instanceof Invalid)) throw error;
          troubles.push(...error.fields);
          return so;
        }
      }, one),
  );
  if (troubles.length > 0 && !isLenient)
    throw new Invalid(troubles.length === 1 ? troubles[0]!.text : 'Some fields need another look.', troubles);
  return changed;
};
