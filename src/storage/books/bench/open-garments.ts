import type { PlaceToWork } from '../../../domain/bench/line/place-to-work.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import type { Mode, Stage } from '../../../domain/making/mode.js';
import { ClientRow } from '../../rows/clients/client.row.js';
import { CommissionRow } from '../../rows/commissions/commission.row.js';
import { GarmentRow } from '../../rows/commissions/garment.row.js';
import { GarmentMarkRow } from '../../rows/commissions/garment-mark.row.js';
import { OperationRow } from '../../rows/commissions/operation.row.js';
import { keptIn, type Reading } from '../../session.js';
import { withoutMarks } from './without-marks.js';

/** A garment that is being made: neither handed over, nor cancelled, nor closed. */
export type OpenGarment = {
  readonly id: string;
  readonly name: string;
  readonly place: number;
  readonly dueOn: CalendarDate | null;
  /** The day the whole commission is wanted by. */
  readonly wantedBy: CalendarDate | null;
  readonly commissionId: string;
  readonly commissionNumber: string;
  readonly wearerName: string;
};

/** Marks that end the making. */
const ENDED = ['delivered', 'collected', 'cancelled', 'closed'] as const;

/** All garments that are being made, those with the nearest date first, then the newest. */
export const openGarments = (reading: Reading): Promise<OpenGarment[]> =>
  keptIn(reading, 'open garments', () =>
    withoutMarks(garmentsWithin(reading), ENDED).getRawMany<OpenGarment>(),
  );

/** Garments with the names of their commission and wearer: raw rows, since a list needs no whole entities. */
export const garmentsWithin = (reading: Reading) =>
  reading.manager
    .createQueryBuilder(GarmentRow, 'garment')
    .innerJoin(CommissionRow, 'commission', 'commission.id = garment.commission_id')
    .innerJoin(ClientRow, 'wearer', 'wearer.id = garment.wearer_id')
    .select('garment.id', 'id')
    .addSelect('garment.name', 'name')
    .addSelect('garment.place', 'place')
    .addSelect('garment.due_on', 'dueOn')
    .addSelect('garment.commission_id', 'commissionId')
    .addSelect('commission.number', 'commissionNumber')
    .addSelect('commission.wanted_by', 'wantedBy')
    .addSelect('wearer.name', 'wearerName')
    .orderBy('CASE WHEN garment.due_on IS NULL THEN 1 ELSE 0 END')
    .addOrderBy('garment.due_on')
    .addOrderBy('garment.id', 'DESC');

/** Garments that were handed over and are not closed, of the commissions whose number stands in this text. */
const handedOverNamed = async (reading: Reading, folded: string): Promise<OpenGarment[]> => {
  const query = garmentsWithin(reading).where(":folded LIKE '%' || LOWER(commission.number) || '%'", {
    folded,
  });
  return withoutMarks(query, ['cancelled', 'closed']).getRawMany<OpenGarment>();
};

/** At most so many garments are compared with a line of time that names no commission. */
const MOST_COMPARED = 150;

type RawOperation = {
  readonly garmentId: string;
  readonly id: string;
  readonly no: number;
  readonly kind: string;
  readonly name: string;
  readonly stage: Stage;
  readonly mode: Mode;
  readonly shares: string;
};

/**
 * The garments that are being made, with their operations, for a line of time to be read against.
 *
 * @param text the line: where it names a commission, only its garments are compared
 * @param first garments to put first, such as those worked on last
 */
export const placesToWork = async (
  reading: Reading,
  text: string,
  first: readonly string[] = [],
): Promise<PlaceToWork[]> => {
  const all = await openGarments(reading);
  const folded = text.toLowerCase();
  const named = all.filter(({ commissionNumber }) => folded.includes(commissionNumber.toLowerCase()));
  const rank = new Map(first.map((id, index) => [id, index]));
  const rankOf = ({ id }: OpenGarment): number => rank.get(id) ?? first.length;
  // Minutes may still be written to what has left and is not closed, where its commission is named.
  const open = new Set(all.map(({ id }) => id));
  const left = /\d/.test(text) ? await handedOverNamed(reading, folded) : [];
  const meant = [...named, ...left.filter(({ id }) => !open.has(id))];
  const garments = (meant.length > 0 ? meant : [...all].sort((a, b) => rankOf(a) - rankOf(b))).slice(
    0,
    MOST_COMPARED,
  );
  if (garments.length === 0) return [];
  const ids = garments.map(({ id }) => id);
  const operations = await keptIn(reading, `operations of ${ids.join(' ')}`, () =>
    operationsOf(reading, ids),
  );
  const finished = await keptIn(reading, `finished of ${ids.join(' ')}`, () => finishedOf(reading, ids));
  return garments.map((garment) => ({
    garmentId: garment.id,
    commissionId: garment.commissionId,
    commissionNumber: garment.commissionNumber,
    place: garment.place,
    name: garment.name,
    wearerName: garment.wearerName,
    operations: (operations.get(garment.id) ?? []).map(({ garmentId: _, shares, ...operation }) => ({
      ...operation,
      mixed: shares !== '[]',
      finished: finished.has(operation.id),
    })),
  }));
};

const operationsOf = async (
  reading: Reading,
  ids: readonly string[],
): Promise<Map<string, RawOperation[]>> => {
  const rows = await reading.manager
    .createQueryBuilder(OperationRow, 'operation')
    .select('operation.garment_id', 'garmentId')
    .addSelect('operation.id', 'id')
    .addSelect('operation.place', 'no')
    .addSelect('operation.kind', 'kind')
    .addSelect('operation.name', 'name')
    .addSelect('operation.stage', 'stage')
    .addSelect('operation.mode', 'mode')
    .addSelect('operation.mode_shares', 'shares')
    .where('operation.garment_id IN (:...ids)', { ids })
    .orderBy('operation.garment_id')
    .addOrderBy('operation.place')
    .getRawMany<RawOperation>();
  const found = new Map<string, RawOperation[]>();
  for (const row of rows) found.set(row.garmentId, [...(found.get(row.garmentId) ?? []), row]);
  return found;
};

/** Operations marked as finished or left out that nobody took up again. */
const finishedOf = async (reading: Reading, ids: readonly string[]): Promise<Set<string>> => {
  const rows = await reading.manager
    .createQueryBuilder(GarmentMarkRow, 'mark')
    .select('mark.id', 'id')
    .addSelect('mark.operation_id', 'operationId')
    .addSelect('mark.of_id', 'ofId')
    .where('mark.garment_id IN (:...ids)', { ids })
    .andWhere('mark.kind IN (:...kinds)', { kinds: ['operation-finished', 'operation-left-out'] })
    .getRawMany<{ id: string; operationId: string | null; ofId: string | null }>();
  const back = new Set(rows.flatMap(({ ofId }) => (ofId ? [ofId] : [])));
  return new Set(
    rows.flatMap(({ id, operationId, ofId }) => (!ofId && operationId && !back.has(id) ? [operationId] : [])),
  );
};
