import type { Drift } from '../../domain/estimating/proof/drift.js';
import type { Repeats } from '../../domain/estimating/repeats.js';
import { Decimal } from '../../domain/kernel/decimal.js';
import type { Mending } from '../../domain/lessons/mending-share.js';
import type { TypeLesson } from '../../domain/lessons/type-lesson.js';
import type { Link } from '../../printing/templates/page-model.js';
import { capitalised, countInWords } from '../../web/words/counts.js';
import { decimalSignOf, numeralText } from '../../web/words/numeral.js';
import { shareInWords } from '../../web/words/shares.js';

export const lessonsCrumb: Link = { text: 'Lessons', href: '/lessons' };

/** Hours as they are worth saying: whole above ten, one decimal below. */
export const hoursInWords = (hours: number | Decimal, locale: string): string => {
  const value = new Decimal(hours);
  return `${numeralText(value.toDecimalPlaces(value.lt(10) ? 1 : 0), decimalSignOf(locale))} h`;
};

/** What a lesson rests on: `4 garments and your own guess of 50 h (ours)`. */
export const restsInWords = ({ garments, belief }: TypeLesson, locale: string): string => {
  const own = countInWords(garments, 'garment');
  if (!belief) return own;
  const guess = hoursInWords(belief.hours, locale);
  return belief.from === 'ours'
    ? `${own} and your own guess of ${guess} (ours)`
    : `${own} and a starting plan of ${guess} (starting value)`;
};

/** How far plans are overrun: `26 % over, from 5`. */
export const overrunInWords = (
  overrun: { readonly garments: number; readonly ratio: Decimal } | undefined,
): string => (overrun ? `${ratioInWords(overrun.ratio)}, from ${overrun.garments}` : '');

/** A ratio of taken to planned: `26 % over`. */
export const ratioInWords = (ratio: Decimal): string => {
  const beyond = ratio.minus(1);
  if (beyond.abs().lt('0.005')) return 'as planned';
  return `${shareInWords(beyond.abs())} ${beyond.isNegative() ? 'under' : 'over'}`;
};

/** Whether the last garments ran long or short together; nothing where it may well be chance. */
export const driftInWords = ({ alarm, together }: Drift, plural: string): string | undefined => {
  if (!alarm) return undefined;
  const last = together < 2 ? `Lately ${plural}` : `The last ${countInWords(together, 'of them', plural)}`;
  return alarm === 'long'
    ? `${last} ran long together: has the cloth, the space or the pattern changed?`
    : `${last} went quicker than foretold, together: the plans have become too long.`;
};

/** What making the same block again does to its time. */
export const repeatsInWords = ({ eachDoubling }: Repeats): string => {
  const change = new Decimal(eachDoubling).minus(1);
  const size = shareInWords(change.abs());
  return `Made again for the same wearer, the second takes ${size} ${change.isNegative() ? 'less' : 'more'} than the first, and the fourth ${size} ${change.isNegative() ? 'less' : 'more'} than the second.`;
};

/** Mending as a share: `4 % of the work, from 6 garments`. */
export const mendingInWords = ({ garments, asItWas, share }: Mending): string => {
  if (share.isZero()) return 'nothing known yet, so no line in a price';
  const bears = `${shareInWords(share, 1)} in every price`;
  return garments === 0
    ? `${bears} (starting value)`
    : `${shareInWords(asItWas, 1)} of the work in ${countInWords(garments, 'garment')}; ${bears}, since 2 % worth 40 h stands beside it`;
};

/** A name for a kind of operation. */
export const kindInWords = (names: ReadonlyMap<string, string>, kind: string): string =>
  capitalised((names.get(kind) ?? kind).replaceAll('-', ' '));
