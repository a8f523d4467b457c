import { FIRST_KEEPING_RULE, type KeepingRule } from '../../../domain/clients/keeping.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { Conflict } from '../../../domain/kernel/errors.js';
import { ClientKeepingRow } from '../../rows/clients/client-keeping.row.js';
import { KeepingRuleRow } from '../../rows/house/keeping-rule.row.js';
import type { Reading, Writing } from '../../session.js';

const RULE_KEY = 'studio';

/** What was settled about one client: kept longer, or erased. */
export type Kept = {
  readonly until: CalendarDate | undefined;
  readonly erasedOn: CalendarDate | undefined;
  readonly erasedBy: string;
};

/** The book of how long something is kept on clients. */
export const keepingBook = {
  async rule(reading: Reading): Promise<KeepingRule> {
    const row = await reading.manager.findOneBy(KeepingRuleRow, { id: RULE_KEY });
    return row ? { version: row.version, years: row.years, childYears: row.child_years } : FIRST_KEEPING_RULE;
  },

  /** @throws Stale when it has changed since `seen` */
  async settle(writing: Writing, rule: Omit<KeepingRule, 'version'>, seen?: number): Promise<void> {
    const columns = { years: rule.years, child_years: rule.childYears };
    const there = await writing.manager.existsBy(KeepingRuleRow, { id: RULE_KEY });
    if (there) await writing.update(KeepingRuleRow, RULE_KEY, columns, seen);
    else await writing.insert(KeepingRuleRow, { id: RULE_KEY, ...columns });
  },

  async of(reading: Reading, clientId: string): Promise<Kept> {
    const row = await reading.manager.findOneBy(ClientKeepingRow, { id: clientId });
    return keptOf(row ?? undefined);
  },

  /** Nothing new is written about one who was erased. @throws Conflict in words */
  async mustBeKept(reading: Reading, clientId: string): Promise<void> {
    if ((await this.of(reading, clientId)).erasedOn)
      throw new Conflict(
        'What was held on this client has been erased, so nothing more is written about them. Somebody who comes back is a new client.',
        'erased',
      );
  },

  /** What was settled about everybody of whom something was. */
  async all(reading: Reading): Promise<ReadonlyMap<string, Kept>> {
    const rows = await reading.manager.find(ClientKeepingRow);
    return new Map(rows.map((row) => [row.id, keptOf(row)]));
  },

  async keepUntil(writing: Writing, clientId: string, until: CalendarDate): Promise<void> {
    await keep(writing, clientId, { keep_until: until });
  },

  /** That everything was erased; nothing takes that back. */
  async erased(writing: Writing, clientId: string, on: CalendarDate): Promise<void> {
    writing.forGood();
    await keep(writing, clientId, { erased_on: on, erased_by: writing.visit.who.name });
  },
};

const keep = async (
  writing: Writing,
  id: string,
  said: Partial<Omit<ClientKeepingRow, 'id' | 'version'>>,
): Promise<void> => {
  const there = await writing.manager.existsBy(ClientKeepingRow, { id });
  if (there) await writing.update<ClientKeepingRow>(ClientKeepingRow, id, said);
  else
    await writing.insert(ClientKeepingRow, { id, keep_until: null, erased_on: null, erased_by: '', ...said });
};

const keptOf = (row: ClientKeepingRow | undefined): Kept => ({
  until: row?.keep_until ?? undefined,
  erasedOn: row?.erased_on ?? undefined,
  erasedBy: row?.erased_by ?? '',
});
