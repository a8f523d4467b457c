import { Decimal } from '../../domain/kernel/decimal.js';
import type { MakingPlan } from '../../domain/making/making-plan.js';
import type { Driver, Mode, Stage } from '../../domain/making/mode.js';
import type { HandStitchSpec, ModeShare, Operation } from '../../domain/making/operation.js';
import { OperationRow } from '../rows/commissions/operation.row.js';
import type { Reading, Writing } from '../session.js';

/** An operation of a plan with its version, so that two people cannot overwrite each other. */
export type PlanLine = Operation & { readonly version: number };

/** The book of making plans, an operation a row. */
export const planBook = {
  async of(reading: Reading, garmentId: string): Promise<readonly PlanLine[]> {
    const rows = await reading.manager.find(OperationRow, {
      where: { garment_id: garmentId },
      order: { place: 'ASC', id: 'ASC' },
    });
    return rows.map(lineOf);
  },

  /** One line of a garment's plan; none when it is not there. */
  async line(reading: Reading, garmentId: string, id: string): Promise<PlanLine | undefined> {
    const row = await reading.manager.findOneBy(OperationRow, { id, garment_id: garmentId });
    return row ? lineOf(row) : undefined;
  },

  /**
   * Makes the kept plan the same as the given one, touching only what differs: inserts what is new, takes out what is
   * gone, moves and changes the rest.
   *
   * @param seen versions of operations that were looked at, by id; another version by now is Stale
   */
  async keep(
    writing: Writing,
    garmentId: string,
    plan: MakingPlan,
    seen: Readonly<Record<string, number>> = {},
  ): Promise<void> {
    const rows = await writing.manager.find(OperationRow, { where: { garment_id: garmentId } });
    const kept = new Map(rows.map((row) => [row.id, row]));
    for (const [index, operation] of plan.entries()) {
      const columns = columnsOf(garmentId, operation, index + 1);
      const row = kept.get(operation.id);
      kept.delete(operation.id);
      if (!row) await writing.insert(OperationRow, { id: operation.id, ...columns });
      else if (differs(row, columns)) await writing.update(OperationRow, row.id, columns, seen[row.id]);
    }
    for (const id of kept.keys()) await writing.remove(OperationRow, id, seen[id]);
  },

  async takeOut(writing: Writing, id: string): Promise<void> {
    await writing.remove(OperationRow, id);
  },
};

type Columns = Omit<OperationRow, 'id' | 'version'>;

const differs = (row: OperationRow, columns: Columns): boolean =>
  (Object.keys(columns) as (keyof Columns)[]).some((name) => row[name] !== columns[name]);

/** A document with decimals as text. */
const written = (value: unknown): string =>
  JSON.stringify(value, (_, one: unknown) => (one instanceof Decimal ? one.toFixed() : one));

const sharesOf = (text: string): ModeShare[] =>
  (JSON.parse(text) as { mode: Mode; share: string }[]).map(({ mode, share }) => ({
    mode,
    share: new Decimal(share),
  }));

type WrittenStitch = {
  lengthMm: string;
  stitchesPerCm: string;
  stitchesPerMinute: string;
  thread?: Record<string, string>;
};

const stitchOf = (text: string): HandStitchSpec => {
  const { thread, ...seam } = JSON.parse(text) as WrittenStitch;
  return {
    lengthMm: new Decimal(seam.lengthMm),
    stitchesPerCm: new Decimal(seam.stitchesPerCm),
    stitchesPerMinute: new Decimal(seam.stitchesPerMinute),
    ...(thread
      ? {
          thread: {
            perSeamLength: new Decimal(thread.perSeamLength ?? 0),
            lengthMm: new Decimal(thread.lengthMm ?? 0),
            changeMinutes: new Decimal(thread.changeMinutes ?? 0),
          },
        }
      : {}),
  };
};

const lineOf = (row: OperationRow): PlanLine => ({
  id: row.id,
  version: row.version,
  kind: row.kind,
  name: row.name,
  stage: row.stage as Stage,
  mode: row.mode as Mode,
  modeShares: sharesOf(row.mode_shares),
  basting: row.basting,
  driver: row.driver as Driver,
  quantity: new Decimal(row.quantity),
  fixedMinutes: new Decimal(row.fixed_minutes),
  minutesPerUnit: new Decimal(row.minutes_per_unit),
  needsMinutes: row.needs_minutes,
  ...(row.starting_spread === null ? {} : { startingSpread: new Decimal(row.starting_spread) }),
  fromStartingValues: row.from_starting_values,
  ...(row.hand_stitch === null ? {} : { handStitch: stitchOf(row.hand_stitch) }),
  shownToClient: row.shown_to_client,
  clientWording: row.client_wording,
});

const columnsOf = (garmentId: string, operation: Operation, place: number): Columns => ({
  garment_id: garmentId,
  place,
  kind: operation.kind,
  name: operation.name,
  stage: operation.stage,
  mode: operation.mode,
  mode_shares: written(operation.modeShares),
  basting: operation.basting,
  driver: operation.driver,
  quantity: operation.quantity.toFixed(),
  fixed_minutes: operation.fixedMinutes.toFixed(),
  minutes_per_unit: operation.minutesPerUnit.toFixed(),
  needs_minutes: operation.needsMinutes,
  starting_spread: operation.startingSpread?.toFixed() ?? null,
  from_starting_values: operation.fromStartingValues,
  hand_stitch: operation.handStitch ? written(operation.handStitch) : null,
  shown_to_client: operation.shownToClient,
  client_wording: operation.clientWording,
});
