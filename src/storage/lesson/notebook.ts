import type { NotebookTotal } from '../../domain/estimating/garment-hours.js';
import { minutesOfHours } from '../../domain/kernel/minutes.js';
import type { Make } from '../../domain/making/mode.js';
import { planMinutes } from '../../domain/making/plan-minutes.js';
import { startingPlan } from '../../domain/making/starting-plan.js';
import { pastWorkBook } from '../books/lessons/past-work-book.js';
import { makingBook } from '../books/making-book.js';
import { keptIn, type Reading } from '../session.js';

/** What the notebook knows of garments of a type beyond those known by operation, and what their usual plan comes to. */
export const notebookOf = async (
  reading: Reading,
  typeId: string,
  make: Make,
): Promise<{ readonly notebook: readonly NotebookTotal[]; readonly usualMinutes: number }> => ({
  notebook: (await pastWorkBook.totalsOnly(reading, typeId)).map(({ hours, plannedHours }) => ({
    minutes: minutesOfHours(hours).toNumber(),
    ...(plannedHours ? { plannedMinutes: minutesOfHours(plannedHours).toNumber() } : {}),
  })),
  usualMinutes: await usualMinutes(reading, typeId, make),
});

/** Planned minutes of the type's usual plan: what a notebook total is measured against when it has no plan of its own. */
const usualMinutes = (reading: Reading, typeId: string, make: Make): Promise<number> =>
  keptIn(reading, `usual minutes ${typeId} ${make}`, async () => {
    const type = await makingBook.type(reading, typeId);
    const { plan } = startingPlan(type, make, await makingBook.operations(reading, typeId), () => type.id);
    return planMinutes(plan).minutes;
  });
