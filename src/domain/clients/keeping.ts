import { type CalendarDate, yearsBetween } from '../kernel/calendar-date.js';
import { type Client, isChildOn } from './client.js';

/** How long the house keeps what it holds on somebody who does not come any more. */
export type KeepingRule = {
  readonly version: number;
  /** Years after a grown-up was last here, 1 to 30. */
  readonly years: number;
  /** The same of a child: no longer than of a grown-up. */
  readonly childYears: number;
};

/** What holds until the house says otherwise: six years, two of a child. Our own choice, no source. */
export const FIRST_KEEPING_RULE: KeepingRule = { version: 0, years: 6, childYears: 2 };

/**
 * Has somebody stayed away so long that the house asks whether to keep what it holds on them?
 *
 * @param lastHere the day they were last here, or anything was written for them
 * @param keepUntil the last day of a longer time that somebody settled on; none where nobody did
 * @returns true from the day on which the whole years are over, and after `keepUntil`
 * @see test/domain/clients/keeping.test.ts
 */
export const isTimeToAsk = (
  client: Pick<Client, 'isChild' | 'birthDate'>,
  lastHere: CalendarDate,
  rule: Pick<KeepingRule, 'years' | 'childYears'>,
  today: CalendarDate,
  keepUntil?: CalendarDate,
): boolean => {
  if (keepUntil !== undefined && today <= keepUntil) return false;
  const years = isChildOn(client, today) ? rule.childYears : rule.years;
  return yearsBetween(lastHere, today) >= years;
};
