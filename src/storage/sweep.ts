import { Temporal } from 'temporal-polyfill';
import { LessThan } from 'typeorm';
import type { Instant } from '../domain/kernel/calendar-date.js';
import { OnceRow } from './history/once.row.js';
import { PhotoRow } from './rows/fitting/photo.row.js';
import { PhotoPictureRow } from './rows/fitting/photo-picture.row.js';
import { PairingCodeRow } from './rows/house/pairing-code.row.js';
import { SignInSessionRow } from './rows/house/sign-in-session.row.js';
import type { UnitOfWork } from './unit-of-work.js';

/** Days after which a request that is sent again is no longer known. */
const ONCE_DAYS = 7;
/** Days a browser stays signed in at the most, and unused. */
export const SIGN_IN_DAYS = { most: 30, unused: 7 } as const;
const DAY = 86_400_000;

/** Takes away what has run out: answers kept for repeated requests, sign-ins nobody will come back to, photographs whose consent ended. */
export const sweep = (unit: UnitOfWork, ticks: number): Promise<void> => {
  const ago = (days: number): Instant =>
    Temporal.Instant.fromEpochMilliseconds(ticks - days * DAY).toString();
  return unit.aside(async (manager) => {
    await manager.delete(OnceRow, { at: LessThan(ago(ONCE_DAYS)) });
    // Yesterday by the clock of Greenwich is over everywhere but in the farthest west, where it is shown to nobody.
    const over = await manager.findBy(PhotoRow, { until_day: LessThan(ago(1).slice(0, 10)) });
    for (const { id } of over) {
      await manager.delete(PhotoPictureRow, { id });
      await manager.delete(PhotoRow, { id });
    }
    await manager.delete(PairingCodeRow, { made_at: LessThan(ago(1)) });
    await manager.delete(SignInSessionRow, { begun_at: LessThan(ago(SIGN_IN_DAYS.most)) });
    await manager.delete(SignInSessionRow, { seen_at: LessThan(ago(SIGN_IN_DAYS.unused)) });
  });
};
