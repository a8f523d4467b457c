import {
  type ConsentScope,
  FIRST_PHOTO_RULE,
  type Photo,
  type PhotoRule,
} from '../../../domain/fitting/photo.js';
import { NotFound } from '../../../domain/kernel/errors.js';
import { GarmentRow } from '../../rows/commissions/garment.row.js';
import { FittingRow } from '../../rows/fitting/fitting.row.js';
import { FittingGarmentRow } from '../../rows/fitting/fitting-garment.row.js';
import { PhotoRow } from '../../rows/fitting/photo.row.js';
import { PhotoPictureRow } from '../../rows/fitting/photo-picture.row.js';
import { PhotoRuleRow } from '../../rows/fitting/photo-rule.row.js';
import type { Reading, Writing } from '../../session.js';

export type PhotoWords = Omit<Photo, 'id' | 'version'>;
/** A photograph as it is kept: two JPEGs. */
export type Pictures = { readonly picture: Uint8Array; readonly small: Uint8Array };

const RULE_KEY = 'studio';

/** The book of photographs. What is taken away here is gone: neither undo nor the history holds its bytes. */
export const photoBook = {
  /** @throws NotFound */
  async one(reading: Reading, id: string): Promise<Photo> {
    const row = await reading.manager.findOneBy(PhotoRow, { id });
    if (!row) throw new NotFound('photograph');
    return photoOf(row);
  },

  /** Of what is named, newest first. */
  async about(reading: Reading, about: string, most = 60): Promise<Photo[]> {
    const rows = await reading.manager.find(PhotoRow, {
      where: { about },
      order: { id: 'DESC' },
      take: most,
    });
    return rows.map(photoOf);
  },

  /** Everything somebody may be on, newest first. */
  async ofClient(reading: Reading, clientId: string, most = 500): Promise<Photo[]> {
    const rows = await reading.manager.find(PhotoRow, {
      where: { client_id: clientId },
      order: { id: 'DESC' },
      take: most,
    });
    return rows.map(photoOf);
  },

  /** @throws NotFound */
  async picture(reading: Reading, id: string, size: 'whole' | 'small'): Promise<Uint8Array> {
    const row = await reading.manager.findOneBy(PhotoPictureRow, { id });
    if (!row) throw new NotFound('photograph');
    return Buffer.from(size === 'small' ? row.small_bytes : row.picture_bytes, 'base64');
  },

  async add(writing: Writing, words: PhotoWords, pictures: Pictures): Promise<Photo> {
    const id = writing.newId();
    const row = await writing.insertForGood(PhotoRow, { id, ...columnsOf(words) });
    await writing.insertForGood(PhotoPictureRow, {
      id,
      picture_bytes: Buffer.from(pictures.picture).toString('base64'),
      small_bytes: Buffer.from(pictures.small).toString('base64'),
    });
    return photoOf(row);
  },

  /** What was agreed, said anew. @throws Stale when it has changed since `seen` */
  async correct(writing: Writing, id: string, words: PhotoWords, seen?: number): Promise<Photo> {
    return photoOf(await writing.update(PhotoRow, id, columnsOf(words), seen));
  },

  /** Takes a photograph away for good. */
  async takeAway(writing: Writing, id: string): Promise<Photo> {
    writing.forGood();
    await writing.remove(PhotoPictureRow, id);
    return photoOf(await writing.remove(PhotoRow, id));
  },

  /** Takes away everything somebody may be on: their consent was withdrawn, or they are to be forgotten. */
  async takeAwayOf(writing: Writing, clientId: string): Promise<number> {
    const ids = new Set((await this.ofClient(writing, clientId, 10_000)).map(({ id }) => id));
    // At a fitting of several wearers a photograph names the first; the others may be on it too.
    for (const about of await fittingsWornBy(writing, clientId))
      for (const { id } of await this.about(writing, about, 1000)) ids.add(id);
    for (const id of ids) await this.takeAway(writing, id);
    return ids.size;
  },

  async rule(reading: Reading): Promise<PhotoRule> {
    const row = await reading.manager.findOneBy(PhotoRuleRow, { id: RULE_KEY });
    return row
      ? {
          version: row.version,
          ofChildren: row.of_children,
          months: row.months,
          childMonths: row.child_months,
        }
      : FIRST_PHOTO_RULE;
  },

  /** @throws Stale when it has changed since `seen` */
  async settle(writing: Writing, rule: Omit<PhotoRule, 'version'>, seen?: number): Promise<void> {
    const columns = { of_children: rule.ofChildren, months: rule.months, child_months: rule.childMonths };
    const there = await writing.manager.existsBy(PhotoRuleRow, { id: RULE_KEY });
    if (there) await writing.update(PhotoRuleRow, RULE_KEY, columns, seen);
    else await writing.insert(PhotoRuleRow, { id: RULE_KEY, ...columns });
  },
};

/** The paths of the fittings at which somebody wore a garment. */
const fittingsWornBy = async (reading: Reading, clientId: string): Promise<string[]> => {
  const rows = await reading.manager
    .createQueryBuilder(FittingRow, 'fitting')
    .innerJoin(FittingGarmentRow, 'tried', 'tried.fitting_id = fitting.id')
    .innerJoin(GarmentRow, 'garment', 'garment.id = tried.garment_id')
    .select('fitting.id', 'id')
    .addSelect('fitting.commission_id', 'commission')
    .where('garment.wearer_id = :clientId', { clientId })
    .getRawMany<{ id: string; commission: string }>();
  return [...new Set(rows.map(({ id, commission }) => `commission/${commission}/fitting/${id}`))];
};

const photoOf = (row: PhotoRow): Photo => ({
  id: row.id,
  version: row.version,
  about: row.about,
  clientId: row.client_id ?? undefined,
  takenOn: row.taken_on,
  words: row.words,
  scope: (row.scope || undefined) as ConsentScope | undefined,
  consentBy: row.consent_by,
  until: row.until_day ?? undefined,
  width: row.width,
  height: row.height,
  addedBy: row.added_by,
});

const columnsOf = (words: PhotoWords): Omit<PhotoRow, 'id' | 'version'> => ({
  about: words.about,
  client_id: words.clientId ?? null,
  taken_on: words.takenOn,
  words: words.words,
  scope: words.scope ?? '',
  consent_by: words.consentBy,
  until_day: words.until ?? null,
  width: words.width,
  height: words.height,
  added_by: words.addedBy,
});
