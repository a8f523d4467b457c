import { In } from 'typeorm';
import { type Pattern, patternNumber } from '../../../domain/fitting/pattern.js';
import { NotFound } from '../../../domain/kernel/errors.js';
import { PatternRow } from '../../rows/fitting/pattern.row.js';
import { PatternUseRow } from '../../rows/fitting/pattern-use.row.js';
import type { Reading, Writing } from '../../session.js';
import { seriesBook } from '../series-book.js';

export type PatternWords = Omit<Pattern, 'id' | 'version' | 'number'>;

/** The patterns on their hooks, and which garment is cut from which. */
export const patternBook = {
  /** @throws NotFound */
  async one(reading: Reading, id: string): Promise<Pattern> {
    const row = await reading.manager.findOneBy(PatternRow, { id });
    if (!row) throw new NotFound('pattern');
    return patternOf(row);
  },

  /** Somebody's patterns, newest first. */
  async ofClient(reading: Reading, clientId: string): Promise<Pattern[]> {
    const rows = await reading.manager.find(PatternRow, {
      where: { client_id: clientId },
      order: { id: 'DESC' },
      take: 500,
    });
    return rows.map(patternOf);
  },

  /** The pattern a garment is cut from. */
  async ofGarment(reading: Reading, garmentId: string): Promise<Pattern | undefined> {
    return (await this.ofGarments(reading, [garmentId])).get(garmentId);
  },

  /** Patterns by the garments that are cut from them. */
  async ofGarments(reading: Reading, garmentIds: readonly string[]): Promise<Map<string, Pattern>> {
    if (garmentIds.length === 0) return new Map();
    const uses = await reading.manager.findBy(PatternUseRow, { id: In([...garmentIds]) });
    if (uses.length === 0) return new Map();
    const rows = await reading.manager.findBy(PatternRow, { id: In(uses.map((use) => use.pattern_id)) });
    const patterns = new Map(rows.map((row) => [row.id, patternOf(row)]));
    return new Map(
      uses.flatMap(({ id, pattern_id }) => {
        const pattern = patterns.get(pattern_id);
        return pattern ? [[id, pattern] as const] : [];
      }),
    );
  },

  /** Hangs a pattern up under the next number. */
  async hangUp(writing: Writing, words: PatternWords): Promise<Pattern> {
    const number = patternNumber(await seriesBook.take(writing, 'pattern'));
    return patternOf(await writing.insert(PatternRow, { id: writing.newId(), number, ...columnsOf(words) }));
  },

  /** @throws Stale when it has changed since `seen` */
  async correct(writing: Writing, id: string, words: PatternWords, seen?: number): Promise<Pattern> {
    return patternOf(await writing.update(PatternRow, id, columnsOf(words), seen));
  },

  /** The garment is cut from this pattern, and from no other. */
  async use(writing: Writing, garmentId: string, patternId: string): Promise<void> {
    const there = await writing.manager.findOneBy(PatternUseRow, { id: garmentId });
    if (!there) await writing.insert(PatternUseRow, { id: garmentId, pattern_id: patternId });
    else if (there.pattern_id !== patternId)
      await writing.update(PatternUseRow, garmentId, { pattern_id: patternId });
  },

  /** The garment is cut from no kept pattern. */
  async useNone(writing: Writing, garmentId: string): Promise<void> {
    if (await writing.manager.existsBy(PatternUseRow, { id: garmentId }))
      await writing.remove(PatternUseRow, garmentId);
  },
};

const patternOf = (row: PatternRow): Pattern => ({
  id: row.id,
  version: row.version,
  number: row.number,
  clientId: row.client_id,
  garmentType: row.garment_type,
  name: row.name,
  hook: row.hook,
  lastCorrection: row.last_correction,
  correctedOn: row.corrected_on ?? undefined,
  fittingId: row.fitting_id ?? undefined,
  fromGarmentId: row.from_garment_id ?? undefined,
  notes: row.notes,
});

const columnsOf = (words: PatternWords): Omit<PatternRow, 'id' | 'version' | 'number'> => ({
  client_id: words.clientId,
  garment_type: words.garmentType,
  name: words.name,
  hook: words.hook,
  last_correction: words.lastCorrection,
  corrected_on: words.correctedOn ?? null,
  fitting_id: words.fittingId ?? null,
  from_garment_id: words.fromGarmentId ?? null,
  notes: words.notes,
});
