import { StudioMarkRow } from '../../rows/house/studio-mark.row.js';
import { keptIn, type Reading, type Writing } from '../../session.js';

/** The studio's mark: the picture at the head of its papers. */
export type StudioMark = {
  readonly kind: 'svg' | 'png';
  /** What it shows, for those who do not see it. */
  readonly alternative: string;
  /** Base64. */
  readonly bytes: string;
};
export type KeptMark = StudioMark & { readonly version: number };

const KEY = 'studio';

const markOf = ({ kind, alternative, bytes, version }: StudioMarkRow): KeptMark => ({
  kind: kind as StudioMark['kind'],
  alternative,
  bytes,
  version,
});

/** The book of the mark. One is kept, or none. */
export const markBook = {
  async maybe(reading: Reading): Promise<KeptMark | undefined> {
    return keptIn(reading, 'studio mark', async () => {
      const row = await reading.manager.findOneBy(StudioMarkRow, { id: KEY });
      return row ? markOf(row) : undefined;
    });
  },

  /** @throws Stale when another mark was put there meanwhile */
  async put(writing: Writing, mark: StudioMark, seen?: number): Promise<KeptMark> {
    const present = await writing.manager.existsBy(StudioMarkRow, { id: KEY });
    return markOf(
      present
        ? await writing.update(StudioMarkRow, KEY, mark, seen)
        : await writing.insert(StudioMarkRow, { id: KEY, ...mark }),
    );
  },

  /** @throws NotFound when there is none; Stale when another was put there meanwhile */
  async takeOff(writing: Writing, seen?: number): Promise<void> {
    await writing.remove(StudioMarkRow, KEY, seen);
  },
};
