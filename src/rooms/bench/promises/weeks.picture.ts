import type { PromisedWeek } from '../../../domain/estimating/promise/by-week.js';
import { SafePicture } from '../../../printing/templates/safe-picture.js';

const WIDTH = 640;
const HEIGHT = 160;

/**
 * Hours promised against hours there are, a pair of bars for each week: hollow what there is, filled what is promised, so that it
 * reads without colour. All figures stand in the table beside it.
 */
export const weeksPicture = (weeks: readonly PromisedWeek[]): SafePicture | undefined => {
  const most = Math.max(0, ...weeks.flatMap(({ promised, there }) => [promised, there]));
  if (!(most > 0)) return undefined;
  const step = WIDTH / weeks.length;
  const high = (minutes: number): number => (minutes / most) * (HEIGHT - 12);
  const bars = weeks.flatMap(({ promised, there }, place) => {
    const x = place * step;
    const bar = (minutes: number, left: number, width: number, fill: string): string =>
      `<rect x="${(x + left).toFixed(1)}" y="${(HEIGHT - 2 - high(minutes)).toFixed(1)}" width="${width.toFixed(1)}" height="${high(minutes).toFixed(1)}" fill="currentColor" fill-opacity="${fill}" stroke="currentColor"/>`;
    return [bar(there, step * 0.1, step * 0.8, '0'), bar(promised, step * 0.28, step * 0.44, '0.7')];
  });
  return SafePicture.fromOwnDrawing(
    [
      `<svg class="strip" viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" aria-label="Hours promised, filled, against hours there are, hollow, week by week; the figures stand in the table.">`,
      `<line x1="0" x2="${WIDTH}" y1="${HEIGHT - 2}" y2="${HEIGHT - 2}" stroke="currentColor"/>`,
      ...bars,
      '</svg>',
    ].join(''),
  );
};
