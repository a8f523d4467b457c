import { fileURLToPath } from 'node:url';
import { addDays } from '../../domain/kernel/calendar-date.js';
import { Decimal } from '../../domain/kernel/decimal.js';
import { takeMeasurements } from '../../rooms/clients/measurements/take-measurements.js';
import { clientBook } from '../../storage/books/client-book.js';
import { pastGarmentBook } from '../../storage/books/past-garment-book.js';
import { type Clock, todayIn } from '../../storage/clock.js';
import type { Visit, Writing } from '../../storage/session.js';
import { readStarter } from '../../storage/starter/read-starter.js';
import type { UnitOfWork } from '../../storage/unit-of-work.js';
import { type DemoClient, type DemoFile, readDemo } from './demo-file.js';
import { loadCommission } from './load-commission.js';
import { loadHouse } from './load-house.js';

/** A folder of data that ships with the program. */
export const folder = (name: string): string =>
  fileURLToPath(new URL(`../../../data/${name}`, import.meta.url));

/** What a loaded demonstration holds, for whoever goes on with it: ids by the keys of its files. */
export type LoadedDemo = {
  readonly file: DemoFile;
  readonly clients: ReadonlyMap<string, string>;
  readonly commissions: ReadonlyMap<string, string>;
};

/** Fills an empty studio with the invented one. Every date is counted from today; the same file gives the same studio. */
export const loadDemo = async (
  unit: UnitOfWork,
  visit: Visit,
  clock: Clock,
  zone: string,
): Promise<LoadedDemo> => {
  const [file, starter] = await Promise.all([readDemo(folder('demo')), readStarter(folder('starter'))]);
  const today = todayIn(clock, zone);
  await unit.write(visit, (writing) =>
    loadHouse(writing, { maker: visit.who.name, zone, from: addDays(today, -740), starter }),
  );
  const { value: clients } = await unit.write(visit, (writing) => loadClients(writing, file.clients));
  await unit.write(visit, async (writing) => {
    for (const one of file.past) {
      await pastGarmentBook.add(writing, {
        typeId: one.type,
        hours: new Decimal(one.hours),
        plannedHours: new Decimal(one.planned),
        finishedOn: addDays(today, -one.daysAgo),
        note: '',
      });
    }
    writing.says('Wrote down two years of garments from the notebook', 'lessons');
  });
  const idOf = (key: string): string => {
    const id = clients.get(key);
    if (!id) throw new Error(`The demonstration names a client it does not hold: ${key}.`);
    return id;
  };
  for (const told of file.measurements) {
    await takeMeasurements(unit, visit, clock, idOf(told.client), {
      takenOn: addDays(today, -told.daysAgo),
      takenBy: visit.who.name,
      over: told.over,
      figuration: told.figuration,
      guardian: told.guardian ?? '',
      garmentType: '',
      insteadOf: undefined,
      figurationConfirmed: true,
      values: Object.entries(told.values).map(([dimension, typed]) => ({
        dimension,
        name: '',
        isNew: false,
        typed,
        confirmed: true,
        choice: '',
      })),
    });
  }
  const commissions = new Map<string, string>();
  for (const told of file.commissions)
    commissions.set(told.key, await loadCommission(unit, visit, told, idOf, today));
  return { file, clients, commissions };
};

const loadClients = async (writing: Writing, told: readonly DemoClient[]): Promise<Map<string, string>> => {
  const ids = new Map<string, string>();
  for (const { key, ...one } of told) {
    const client = await clientBook.add(writing, {
      name: one.name,
      address: one.address ?? '',
      country: one.country ?? '',
      email: one.email ?? '',
      phone: one.phone ?? '',
      taxNumber: '',
      notes: one.notes,
      isChild: one.isChild ?? false,
      birthDate: undefined,
      guardian: one.guardian ?? '',
    });
    ids.set(key, client.id);
  }
  writing.says('Brought in the clients of the demonstration studio', 'clients');
  return ids;
};
