import { Decimal } from '../../kernel/decimal.js';

/** Thread for one length of seam: so many times the seam, by stitch type of ISO 4915. */
export type ThreadRatio = {
  readonly stitch: string;
  readonly ratio: Decimal;
  /** `table`, `guide`, or `own`. */
  readonly family: string;
  readonly source: string;
};

/** What the stitch types are, in words. @see ISO 4915 */
export const STITCH_WORDS: Readonly<Record<string, string>> = {
  '101': 'chain stitch, one thread',
  '103': 'blind stitch, one thread',
  '301': 'lockstitch',
  '304': 'zigzag lockstitch',
  '401': 'chain stitch, two threads',
  '406': 'covering stitch, two needles',
  '503': 'overedge, two threads',
  '504': 'overedge, three threads',
  '512': 'overedge safety, four threads',
  '516': 'overedge safety, five threads',
  '602': 'cover stitch, four threads',
  '605': 'cover stitch, five threads',
  '606': 'flat seaming, nine threads',
};

const TABLE_SOURCE =
  'Carr & Latham, The Technology of Clothing Manufacture, thread consumption, 7 stitches/cm';
const GUIDE_SOURCE = 'Coats, Standard Stitch Type Classification Guide';

const of = (family: string, source: string, ratios: Readonly<Record<string, string>>): ThreadRatio[] =>
  Object.entries(ratios).map(([stitch, ratio]) => ({ stitch, ratio: new Decimal(ratio), family, source }));

/** Both published families. They differ, which is why each figure stands with its source and can be replaced. */
export const PUBLISHED_RATIOS: readonly ThreadRatio[] = [
  ...of('table', TABLE_SOURCE, {
    '101': '4.0',
    '301': '2.5',
    '304': '7.0',
    '401': '5.5',
    '406': '18.0',
    '503': '12.0',
    '504': '14.0',
    '512': '18.0',
    '516': '20.0',
    '602': '25.0',
    '605': '28.0',
    '606': '32.0',
  }),
  ...of('guide', GUIDE_SOURCE, { '101': '5', '103': '4.5', '301': '2.5', '304': '5.5' }),
];
