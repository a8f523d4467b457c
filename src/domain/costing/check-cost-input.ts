import type { Decimal } from '../kernel/decimal.js';
import { type FieldTrouble, Invalid } from '../kernel/errors.js';
import type { CostedMaterial, CostedOperation, CostSheetInput } from './cost-lines.js';

/** Refuses with every field at fault at once. @throws Invalid when there is any */
export const refuseIfAny = (troubles: readonly FieldTrouble[]): void => {
  const [first] = troubles;
  if (first) throw new Invalid(first.text, troubles);
};

/** The trouble of a number that must not be below nought, if it is. */
export const belowNought = (field: string, value: Decimal | undefined, what: string): FieldTrouble[] =>
  value?.lt(0) ? [{ field, text: `${what} cannot be below 0.` }] : [];

const operationTroubles = (operation: CostedOperation, at: string): FieldTrouble[] => {
  const byDriver =
    operation.fixedMinutes !== undefined ||
    operation.quantity !== undefined ||
    operation.minutesPerUnit !== undefined;
  const both =
    byDriver && operation.minutes !== undefined
      ? [
          {
            field: `${at}.minutes`,
            text: 'Give either the minutes, or fixed minutes with a quantity and minutes per unit, not both.',
          },
        ]
      : [];
  return [
    ...both,
    ...belowNought(`${at}.minutes`, operation.minutes, 'Minutes'),
    ...belowNought(`${at}.fixedMinutes`, operation.fixedMinutes, 'Fixed minutes'),
    ...belowNought(`${at}.quantity`, operation.quantity, 'A quantity'),
    ...belowNought(`${at}.minutesPerUnit`, operation.minutesPerUnit, 'Minutes per unit'),
    ...belowNought(`${at}.pricedMinutes`, operation.pricedMinutes, 'Priced minutes'),
    ...belowNought(`${at}.perHour`, operation.perHour, 'An hourly cost'),
  ];
};

const materialTroubles = (
  material: CostedMaterial,
  at: string,
  wasteOf: CostSheetInput['wasteOf'],
): FieldTrouble[] => {
  const ofGross = (material.wasteOf ?? wasteOf) === 'gross';
  return [
    ...belowNought(`${at}.quantity`, material.quantity, 'A quantity'),
    ...belowNought(`${at}.unitCost`, material.unitCost, 'A unit cost'),
    ...belowNought(`${at}.replacementUnitCost`, material.replacementUnitCost, 'A replacement value'),
    ...belowNought(`${at}.wasteShare`, material.wasteShare, 'A waste share'),
    ...(ofGross && material.wasteShare?.gte(1)
      ? [
          {
            field: `${at}.wasteShare`,
            text: 'A waste share of what is bought must be below 1: 0.10 is 10 %.',
          },
        ]
      : []),
  ];
};

/**
 * What in a cost sheet's input cannot be meant: numbers below nought, two ways of giving minutes, waste of everything.
 *
 * @returns every field at fault, by a path such as `operations.2.quantity`; empty when all is well
 * @see test/domain/pricing/work-out-price.test.ts
 */
export const costInputTroubles = (input: CostSheetInput): FieldTrouble[] => [
  ...belowNought('labour.perHour', input.labour.perHour, 'A labour rate'),
  ...Object.entries(input.labour.perHourByMode ?? {}).flatMap(([mode, rate]) =>
    belowNought(`labour.perHourByMode.${mode}`, rate, 'A labour rate'),
  ),
  ...belowNought('machinePerHour', input.machinePerHour, 'A machine rate'),
  ...(input.overhead ?? []).flatMap((pool, index) =>
    belowNought(`overhead.${index}.rate`, pool.rate, 'An overhead rate'),
  ),
  ...(input.operations ?? []).flatMap((operation, index) =>
    operationTroubles(operation, `operations.${index}`),
  ),
  ...(input.materials ?? []).flatMap((material, index) =>
    materialTroubles(material, `materials.${index}`, input.wasteOf),
  ),
  ...(input.expenses ?? []).flatMap((expense, index) =>
    belowNought(`expenses.${index}.amount`, expense.amount.toDecimal(), 'An expense'),
  ),
  ...belowNought('mendingShare', input.mendingShare, 'A mending share'),
  ...belowNought('keptBackMinutes', input.keptBackMinutes, 'What is kept back'),
];
