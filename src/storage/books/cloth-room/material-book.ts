import { foldForSearch } from '../../../domain/clients/client.js';
import { NotFound } from '../../../domain/kernel/errors.js';
import type { QuantityUnit } from '../../../domain/kernel/quantity.js';
import type { Material, MaterialKind } from '../../../domain/stock/material.js';
import type { StockMethod } from '../../../domain/stock/movements.js';
import { MaterialRow } from '../../rows/cloth-room/material.row.js';
import type { Reading, Writing } from '../../session.js';
import type { PageOf } from '../client-book.js';
import { holdingWords } from './folded-words.js';

export type MaterialWords = Omit<Material, 'id' | 'version'>;

/** The book of materials. */
export const materialBook = {
  /** @throws NotFound */
  async one(reading: Reading, id: string): Promise<Material> {
    const row = await reading.manager.findOneBy(MaterialRow, { id });
    if (!row) throw new NotFound('material');
    return materialOf(row);
  },

  /** By name; those that hold every word asked for. @param after the last key of the page before */
  async find(reading: Reading, asked = '', limit = 30, after = ''): Promise<PageOf<Material>> {
    const query = reading.manager
      .createQueryBuilder(MaterialRow, 'material')
      .orderBy('material.folded')
      .addOrderBy('material.id');
    holdingWords(query, 'material', asked);
    const last = after ? await reading.manager.findOneBy(MaterialRow, { id: after }) : null;
    if (last)
      query.andWhere('(material.folded > :folded OR (material.folded = :folded AND material.id > :id))', {
        folded: last.folded,
        id: last.id,
      });
    const rows = await query.take(limit + 1).getMany();
    return {
      items: rows.slice(0, limit).map(materialOf),
      next: rows.length > limit ? rows[limit - 1]?.id : undefined,
    };
  },

  /** All of them by key, for pages that name many. */
  async all(reading: Reading): Promise<Map<string, Material>> {
    const rows = await reading.manager.find(MaterialRow, { order: { folded: 'ASC', id: 'ASC' } });
    return new Map(rows.map((row) => [row.id, materialOf(row)]));
  },

  async add(writing: Writing, words: MaterialWords): Promise<Material> {
    return materialOf(await writing.insert(MaterialRow, { id: writing.newId(), ...columnsOf(words) }));
  },

  /** @throws Stale when somebody corrected it meanwhile */
  async correct(writing: Writing, id: string, words: MaterialWords, seen?: number): Promise<Material> {
    return materialOf(await writing.update(MaterialRow, id, columnsOf(words), seen));
  },
};

const materialOf = (row: MaterialRow): Material => ({
  id: row.id,
  version: row.version,
  name: row.name,
  kind: row.kind as MaterialKind,
  unit: row.unit as QuantityUnit,
  width: { shown: row.width, mm: row.width_mm },
  fibres: row.fibres,
  care: row.care,
  patternRepeat: { shown: row.pattern_repeat, mm: row.pattern_repeat_mm },
  hasNap: row.has_nap,
  supplierId: row.supplier_id ?? undefined,
  place: row.place,
  method: row.method as StockMethod,
  notes: row.notes,
});

const columnsOf = (words: MaterialWords): Omit<MaterialRow, 'id' | 'version'> => ({
  name: words.name,
  folded: foldForSearch([words.name, words.kind, words.fibres, words.place].join(' ')),
  kind: words.kind,
  unit: words.unit,
  width: words.width.shown,
  width_mm: words.width.mm,
  fibres: words.fibres,
  care: words.care,
  pattern_repeat: words.patternRepeat.shown,
  pattern_repeat_mm: words.patternRepeat.mm,
  has_nap: words.hasNap,
  supplier_id: words.supplierId ?? null,
  place: words.place,
  method: words.method,
  notes: words.notes,
});
