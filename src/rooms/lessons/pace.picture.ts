import type { HandPace } from '../../domain/lessons/hand-paces.js';
import { SafePicture } from '../../printing/templates/safe-picture.js';
import { capitalised } from '../../web/words/counts.js';

const WIDTH = 640;
const EDGE = 12;
const ROW = 52;
const MOST_ROWS = 12;
const LONGEST_NAME = 44;

/**
 * The pace of the hand, a row for each kind of stitch from the same nought: a dot for each garment's seams, darker where they lie on
 * each other, and an upright stroke at the middle. A garment far off from the others is an empty dot. The kinds known from most
 * garments are drawn; `left` says how many more stand in the table alone.
 *
 * @returns nothing to draw where no pace is known
 */
export const pacePicture = (
  paces: readonly HandPace[],
): { readonly picture: SafePicture; readonly left: number } | undefined => {
  const shown = paces.slice(0, MOST_ROWS);
  const near = shown.flatMap(({ typical, ofEach }) => [
    typical,
    ...ofEach.filter(({ isFarOff }) => !isFarOff).map(({ pace }) => pace),
  ]);
  const most = near.reduce((high, pace) => Math.max(high, pace), 0);
  if (!(most > 0)) return undefined;
  const scale = (WIDTH - 2 * EDGE) / most;
  const at = (pace: number): string => (EDGE + Math.min(most, pace) * scale).toFixed(1);
  const rows = shown.map(({ name, typical, ofEach }, row) => {
    const y = row * ROW + 38;
    const dots = ofEach.map(({ pace, isFarOff }) =>
      isFarOff
        ? `<circle cx="${at(pace)}" cy="${y}" r="4.5" fill="none" stroke="currentColor" stroke-width="1.5"/>`
        : `<circle cx="${at(pace)}" cy="${y}" r="5" fill="currentColor" fill-opacity="0.5"/>`,
    );
    return [
      `<text x="0" y="${row * ROW + 20}" font-size="20" fill="currentColor">${drawable(name)}</text>`,
      `<line x1="${EDGE}" x2="${WIDTH - EDGE}" y1="${y}" y2="${y}" stroke="currentColor" stroke-width="0.5"/>`,
      ...dots,
      `<line x1="${at(typical)}" x2="${at(typical)}" y1="${y - 11}" y2="${y + 11}" stroke="currentColor" stroke-width="2"/>`,
    ].join('');
  });
  const picture = SafePicture.fromOwnDrawing(
    [
      `<svg class="strip" viewBox="0 0 ${WIDTH} ${shown.length * ROW + 4}" role="img" aria-label="Stitches an hour, a row for each kind of stitching, a dot for each garment, a stroke at the middle; the figures stand in the table.">`,
      ...rows,
      '</svg>',
    ].join(''),
  );
  return { picture, left: paces.length - shown.length };
};

/** A name from people: cut to the width, and every sign that could be read as markup or as an attribute written out. */
const drawable = (name: string): string => {
  const signs = [...capitalised(name)];
  const short =
    signs.length > LONGEST_NAME ? `${signs.slice(0, LONGEST_NAME - 1).join('')}\u2026` : signs.join('');
  return short.replace(/[&<>"'=]/g, (sign) => `&#${sign.charCodeAt(0)};`);
};
