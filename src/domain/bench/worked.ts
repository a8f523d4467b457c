import type { Cause } from '../costing/causes.js';
import { Decimal } from '../kernel/decimal.js';
import type { Minutes } from '../kernel/minutes.js';
import { shareByLargestRemainder } from '../kernel/sharing.js';
import type { MakingPlan } from '../making/making-plan.js';
import { type Mode, STAGE_WORDS } from '../making/mode.js';
import { type ModeShare, type Operation, plannedMinutes } from '../making/operation.js';
import type { BenchEntry } from './bench-entry.js';

/** Minutes of one piece of work. Each minute belongs to exactly one operation, mode, cause and person. */
export type WorkedMinutes = {
  readonly entryId: string;
  readonly personId: string;
  readonly personName: string;
  readonly on: string;
  readonly operationId: string | undefined;
  readonly kind: string;
  readonly name: string;
  readonly mode: Mode;
  readonly cause: Cause | undefined;
  readonly extraId: string | undefined;
  readonly minutes: Minutes;
};

/** What the cost of minutes goes by. */
export type TimedWork = Pick<
  WorkedMinutes,
  'on' | 'personName' | 'operationId' | 'name' | 'mode' | 'minutes'
>;

/** The entries that stand: neither reversed nor a reversal. */
export const standingEntries = (entries: readonly BenchEntry[]): BenchEntry[] => {
  const reversed = new Set(entries.flatMap(({ of }) => (of ? [of] : [])));
  return entries.filter(({ id, of }) => !of && !reversed.has(id));
};

/**
 * What was worked on one garment, minute by minute: a sitting on a whole stage is shared over that stage's operations by
 * their planned minutes, and an operation in several modes over its modes, each by largest remainder, so that every
 * minute is somewhere exactly once.
 *
 * @param entries of one garment, reversals included
 * @param plan its making plan; operations left out should not be in it
 * @returns Σ minutes = Σ minutes of the entries that stand
 * @see test/domain/bench/worked.test.ts
 */
export const workedMinutes = (entries: readonly BenchEntry[], plan: MakingPlan): WorkedMinutes[] => {
  const byId = new Map(plan.map((operation) => [operation.id, operation]));
  return standingEntries(entries).flatMap((entry) =>
    entry.operationId || !entry.stage || entry.mode
      ? ofOne(entry, entry.minutes, entry.operationId ? byId.get(entry.operationId) : undefined)
      : ofStage(entry, plan),
  );
};

const ofStage = (entry: BenchEntry, plan: MakingPlan): WorkedMinutes[] => {
  const operations = plan.filter(({ stage }) => stage === entry.stage);
  if (operations.length === 0) return ofOne(entry, entry.minutes, undefined);
  const timed = operations.some((operation) => plannedMinutes(operation) > 0);
  const parts = shareByLargestRemainder(
    entry.minutes,
    operations.map((operation) => new Decimal(timed ? plannedMinutes(operation) : 1)),
  );
  return operations.flatMap((operation, index) => ofOne(entry, parts[index] ?? 0, operation));
};

const ofOne = (entry: BenchEntry, minutes: Minutes, operation: Operation | undefined): WorkedMinutes[] => {
  const modes = modesOf(entry, operation);
  const parts = shareByLargestRemainder(
    minutes,
    modes.map(({ share }) => share),
  );
  return modes.flatMap(({ mode }, index) => {
    const part = parts[index] ?? 0;
    return part === 0
      ? []
      : [
          {
            entryId: entry.id,
            personId: entry.personId,
            personName: entry.personName,
            on: entry.on,
            operationId: operation?.id ?? entry.operationId,
            kind: operation?.kind ?? entry.kind,
            name: operation?.name ?? (entry.name || (entry.stage ? STAGE_WORDS[entry.stage] : '')),
            mode,
            cause: entry.cause,
            extraId: entry.extraId,
            minutes: part,
          },
        ];
  });
};

/** The mode somebody said goes before the plan's; work nobody named a mode for is hand work. */
const modesOf = (entry: BenchEntry, operation: Operation | undefined): readonly ModeShare[] => {
  const whole = new Decimal(1);
  if (entry.mode) return [{ mode: entry.mode, share: whole }];
  if (!operation) return [{ mode: 'hand', share: whole }];
  return operation.modeShares.length > 0 ? operation.modeShares : [{ mode: operation.mode, share: whole }];
};
