import type { PastGarment } from '../../domain/estimating/lesson/history.js';
import { type ClosedGarment, readClosedGarment } from '../../domain/lessons/closed-garment.js';
import type { EarnedOnce } from '../../domain/lessons/earned-by-type.js';
import { teachingHistory } from '../../domain/lessons/past-work.js';
import { readReckoning } from '../../domain/reckoning/frozen-reckoning.js';
import { pastWorkBook } from '../books/lessons/past-work-book.js';
import { inParts } from '../in-parts.js';
import { GarmentMarkRow } from '../rows/commissions/garment-mark.row.js';
import { keptIn, type Reading } from '../session.js';

/** Marks read in one go: between two, other requests are answered. */
const AT_ONCE = 100;

/** A word that changes with everything the lesson is fitted to; empty while there is nothing. */
export const taughtVersion = async (reading: Reading): Promise<string> =>
  `${await closedVersion(reading)} ${await pastWorkBook.version(reading)}`.trim();

/** A word that changes whenever a garment was closed or its closing taken back; empty while none ever was. */
const closedVersion = (reading: Reading): Promise<string> =>
  keptIn(reading, 'version of the closed garments', async () => {
    const row = await reading.manager
      .createQueryBuilder(GarmentMarkRow, 'mark')
      .select('COUNT(*)', 'count')
      .addSelect('MAX(mark.id)', 'last')
      .where("mark.kind = 'closed'")
      .getRawOne<{ count: number | string; last: string | null }>();
    return row?.last ? `${row.count} ${row.last}` : '';
  });

/** A closed garment with what it earned, where its reckoning was frozen with it. */
export type TaughtGarment = ClosedGarment & { readonly earned: EarnedOnce | undefined };

/** The garments that teach. Their documents never change, so each is read once. */
export class TaughtGarments {
  private readonly garments = new Map<string, TaughtGarment | undefined>();

  /** Garments as the lesson reads them, closed ones and past ones known by operation, oldest first; a document that cannot be read teaches nothing. */
  async history(reading: Reading): Promise<PastGarment[]> {
    return teachingHistory(await this.closed(reading), await pastWorkBook.garments(reading));
  }

  /** Closed garments in the order they were closed in. */
  async closed(reading: Reading): Promise<TaughtGarment[]> {
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
    for (const some of inParts(unread, AT_ONCE)) await this.read(reading, some);
    return standing.flatMap((id) => this.garments.get(id) ?? []);
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

const readable = (document: string): TaughtGarment | undefined => {
  try {
    const garment = readClosedGarment(document);
    return garment && { ...garment, earned: earnedIn(document) };
  } catch {
    return undefined;
  }
};

/** Only what an hour earned follows from; a reckoning that cannot be read earns nothing, and teaches all the same. */
const earnedIn = (document: string): EarnedOnce | undefined => {
  const reckoning = readReckoning(document);
  if (!reckoning?.cost) return undefined;
  const { currency, actualProfit, price, cost } = reckoning;
  return { currency, actualProfit, price, cost: { labour: cost.labour, minutes: cost.minutes } };
};
