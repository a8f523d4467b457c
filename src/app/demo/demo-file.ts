import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { ChargedAt } from '../../domain/commissions/garment.js';
import type { QuantityUnit } from '../../domain/kernel/quantity.js';
import type { Make, Mode, Stage } from '../../domain/making/mode.js';

/** The invented people, by a key that the other files refer to. */
export type DemoClient = {
  readonly key: string;
  readonly name: string;
  readonly address?: string;
  readonly country?: string;
  readonly phone?: string;
  readonly email?: string;
  readonly isChild?: boolean;
  readonly guardian?: string;
  readonly notes: string;
};

export type DemoMaterial = {
  readonly name: string;
  readonly quantity: string;
  readonly unit: QuantityUnit;
  readonly unitCost: string;
  readonly wasteShare?: string;
  readonly handling?: boolean;
  readonly replacement?: string;
  readonly chargeAt?: ChargedAt;
  /** The client's wording, where the client reads of it. */
  readonly show?: string;
};

export type DemoOperation = {
  readonly name: string;
  readonly kind: string;
  readonly stage: Stage;
  readonly mode: Mode;
  readonly minutes: string;
  readonly show?: string;
};

export type DemoGarment = {
  readonly type: string;
  readonly name: string;
  readonly make: Make;
  readonly wearer?: string;
  readonly dueInDays: number;
  /** Operations the client reads of, with their wording. */
  readonly show?: Readonly<Record<string, string>>;
  readonly add?: readonly DemoOperation[];
  readonly materials: readonly DemoMaterial[];
};

export type DemoQuote = {
  /** Issued and still open when there is no answer; not even issued when false. */
  readonly issue?: boolean;
  readonly answer?: 'accepted' | 'declined';
  readonly who?: string;
  readonly how?: string;
  readonly agoDays?: number;
};

export type DemoCommission = {
  readonly key: string;
  readonly client: string;
  readonly title: string;
  readonly orderNumber?: string;
  readonly openedDaysAgo: number;
  readonly wantedInDays: number;
  readonly notes: string;
  readonly garments: readonly DemoGarment[];
  readonly expenses?: readonly { readonly garment: number; readonly name: string; readonly amount: string }[];
  readonly quote: DemoQuote;
};

export type DemoMeasurements = {
  readonly client: string;
  readonly daysAgo: number;
  readonly over: string;
  readonly figuration: string;
  readonly guardian?: string;
  readonly values: Readonly<Record<string, string>>;
};

export type DemoPastGarment = {
  readonly type: string;
  readonly daysAgo: number;
  readonly planned: string;
  readonly hours: string;
};

/** Everything invented for the demonstration studio. Days are counted from the day it is loaded. */
export type DemoFile = {
  readonly clients: readonly DemoClient[];
  readonly commissions: readonly DemoCommission[];
  readonly measurements: readonly DemoMeasurements[];
  readonly past: readonly DemoPastGarment[];
};

export const readDemo = async (folder: string): Promise<DemoFile> => {
  const read = async <T>(name: string): Promise<T> =>
    JSON.parse(await readFile(join(folder, name), 'utf8')) as T;
  return {
    clients: await read('clients.json'),
    commissions: await read('commissions.json'),
    measurements: await read('measurements.json'),
    past: await read('past-garments.json'),
  };
};
