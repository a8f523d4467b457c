import type { PastGarment } from '../../domain/estimating/lesson/history.js';
import { type ClosedGarment, lessonsFrom, readClosedGarment } from '../../domain/lessons/closed-garment.js';
import { GarmentMarkRow } from '../rows/commissions/garment-mark.row.js';
import { keptIn, type Reading } from '../session.js';

/** Marks read in one go: between two, other requests are answered. */
const AT_ONCE = 100;

/** A word that changes whenever a garment was closed or its closing taken back; empty while none ever was. */
export const closedVersion = (reading: Reading): Promise<string> =>
  keptIn(reading, 'version of the closed garments', async () => {
    const row = await reading.manager
      .createQueryBuilder(GarmentMarkRow, 'mark')
      .select('COUNT(*)', 'count')
      .addSelect('MAX(mark.id)', 'last')
      .where("mark.kind = 'closed'")
      .getRawOne<{ count: number | string; last: string | null }>();
    return row?.last ? `${row.count} ${row.last}` : '';
  });

/** The garments that teach. Their documents never change, so each is read once. */
export class TaughtGarments {
  private readonly garments = new Map<string, ClosedGarment | undefined>();

  /** Closed garments as the lesson reads them, oldest first; a document that cannot be read teaches nothing. */
  async history(reading: Reading): Promise<PastGarment[]> {
    const marks = await reading.manager
      .createQueryBuilder(GarmentMarkRow, 'mark')
      .select('mark.id', 'id')
      .addSelect('mark.of_id', 'of')
      .where("mark.kind = 'closed'")
      .orderBy('mark.id')
      .getRawMany<{ id: string; of: string | null }>();
    const takenBack = new Set(marks.flatMap(({ of }) => of ?? []));
    const standing = marks.flatMap(({ id, of }) => (of || takenBack.has(id) ? [] : [id]));
    const unread = standing.filter((id) => !this.garments.has(id));
    for (let from = 0; from < unread.length; from += AT_ONCE)
      await this.read(reading, unread.slice(from, from + AT_ONCE));
    return lessonsFrom(standing.flatMap((id) => this.garments.get(id) ?? []));
  }

  private async read(reading: Reading, ids: readonly string[]): Promise<void> {
    const rows = await reading.manager
      .createQueryBuilder(GarmentMarkRow, 'mark')
      .select('mark.id', 'id')
      .addSelect('mark.document', 'document')
      .where('mark.id IN (:...ids)', { ids: [...ids] })
      .getRawMany<{ id: string; document: string }>();
    for (const { id, document } of rows) this.garments.set(id, readable(document));
  }
}

const readable = (document: string): ClosedGarment | undefined => {
  try {
    return readClosedGarment(document);
  } catch {
    return undefined;
  }
};
