import { Fittings1764000000015 } from './1764000000015-fittings.js';
import { BesideTheBench1764000000016 } from './1764000000016-beside-the-bench.js';
import { Phones1764000000017 } from './1764000000017-phones.js';
import { ClosedDays1764000000018 } from './1764000000018-closed-days.js';
import { Reminders1764000000020 } from './1764000000020-reminders.js';
import { PastWork1764000000021 } from './1764000000021-past-work.js';
import { Keeping1764000000024 } from './1764000000024-keeping.js';
import { NotedEntries1764000000025 } from './1764000000025-noted-entries.js';
import { History1764000000001 } from './founding/1764000000001-history.js';
import { House1764000000002 } from './founding/1764000000002-house.js';
import { Clients1764000000003 } from './founding/1764000000003-clients.js';
import { Measurements1764000000004 } from './founding/1764000000004-measurements.js';
import { Rates1764000000005 } from './founding/1764000000005-rates.js';
import { Commissions1764000000006 } from './founding/1764000000006-commissions.js';
import { Quotes1764000000007 } from './founding/1764000000007-quotes.js';
import { PastGarments1764000000008 } from './founding/1764000000008-past-garments.js';
import { ClothRoom1764000000009 } from './founding/1764000000009-cloth-room.js';
import { Bench1764000000010 } from './founding/1764000000010-bench.js';
import { Invoices1764000000011 } from './founding/1764000000011-invoices.js';
import { Payments1764000000012 } from './founding/1764000000012-payments.js';
import { Letterhead1764000000013 } from './founding/1764000000013-letterhead.js';
import { Extras1764000000014 } from './founding/1764000000014-extras.js';

/** Every migration, in order. One that has been released is never edited. */
export const migrations = [
  History1764000000001,
  House1764000000002,
  Clients1764000000003,
  Measurements1764000000004,
  Rates1764000000005,
  Commissions1764000000006,
  Quotes1764000000007,
  PastGarments1764000000008,
  ClothRoom1764000000009,
  Bench1764000000010,
  Invoices1764000000011,
  Payments1764000000012,
  Letterhead1764000000013,
  Extras1764000000014,
  Fittings1764000000015,
  BesideTheBench1764000000016,
  Phones1764000000017,
  ClosedDays1764000000018,
  Reminders1764000000020,
  PastWork1764000000021,
  Keeping1764000000024,
  NotedEntries1764000000025,
];

/** Are all these migrations ours? Data with others in it was written by a newer release, whose rules this one does not know. */
export const areKnown = (names: readonly string[]): boolean => {
  const known = new Set(migrations.map(({ name }) => name));
  return names.every((name) => known.has(name));
};
