import { z } from 'zod';
import type { PersonTerms } from '../../domain/rates/rate-workings.js';
import { date, line } from '../../web/fields/fields.js';
import type { FieldKit } from '../../web/fields/kits.js';
import {
  machineFields,
  modeFields,
  noPay,
  overheadList,
  yearFields,
} from '../../web/rates/working-fields.js';
import { bases, type Dated, person } from './rates.form.js';

const PersonSent = (kit: FieldKit) =>
  z
    .strictObject({
      name: person(),
      pay: kit.optionalMoney(),
      onCosts: z
        .array(z.strictObject({ name: line('Name this cost.', 100), amount: kit.money('Send an amount.') }))
        .default([]),
      plainPerHour: kit.optionalMoney(),
      year: z.strictObject(yearFields(kit)).optional(),
      perHourByMode: modeFields(kit),
    })
    .transform(
      ({ pay, plainPerHour, year, ...said }): PersonTerms => ({
        ...said,
        pay: pay ?? noPay(kit.currency),
        ...(plainPerHour && { plainPerHour }),
        ...(year && { year }),
      }),
    );

/** A rate card as a program sends it: all the answers at once. */
export const RatesSent = (kit: FieldKit) =>
  z
    .strictObject({
      from: date(),
      people: z.array(PersonSent(kit)).min(1, 'A rate needs at least one person who works.').max(12),
      overhead: overheadList(kit),
      machine: machineFields(kit).optional(),
      ...bases(kit),
    })
    .transform(
      ({ from, people, overhead, machine, ...rest }): Dated => ({
        from,
        change: () => ({
          currency: kit.currency,
          people,
          overhead,
          ...(machine && { machine }),
          ...rest,
        }),
      }),
    );
