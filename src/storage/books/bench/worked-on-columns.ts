import type { AwayKind, WorkedOn } from '../../../domain/bench/bench-entry.js';
import type { Cause } from '../../../domain/costing/causes.js';
import type { Mode, Stage } from '../../../domain/making/mode.js';
import type { WorkedOnColumns } from '../../rows/bench/worked-on.js';

/** What minutes go into, with what the row keeps beside it. */
export type WorkedOnWords = WorkedOn & {
  readonly garmentName: string;
  readonly cause: Cause | undefined;
  readonly extraId: string | undefined;
};

/** What minutes went into, from its columns. */
export const workedOnOf = (row: WorkedOnColumns): WorkedOnWords => ({
  commissionId: row.commission_id ?? undefined,
  garmentId: row.garment_id ?? undefined,
  garmentName: row.garment_name,
  operationId: row.operation_id ?? undefined,
  kind: row.kind,
  name: row.name,
  stage: (row.stage || undefined) as Stage | undefined,
  mode: (row.mode || undefined) as Mode | undefined,
  away: (row.away || undefined) as AwayKind | undefined,
  cause: (row.cause || undefined) as Cause | undefined,
  extraId: row.extra_id ?? undefined,
});

/** Its columns. */
export const columnsOfWorkedOn = (words: WorkedOnWords): WorkedOnColumns => ({
  commission_id: words.commissionId ?? null,
  garment_id: words.garmentId ?? null,
  garment_name: words.garmentName,
  operation_id: words.operationId ?? null,
  kind: words.kind,
  name: words.name,
  stage: words.stage ?? '',
  mode: words.mode ?? '',
  away: words.away ?? '',
  cause: words.cause ?? '',
  extra_id: words.extraId ?? null,
});
