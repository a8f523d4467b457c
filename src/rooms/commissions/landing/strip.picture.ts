import type { Landing } from '../../../domain/commissions/landing/landing.js';
import { SafePicture } from '../../../printing/templates/safe-picture.js';

/** Minutes drawn as strips under each other, from the same nought. */
export type StripFigures = {
  readonly planned: number;
  readonly soFar: number;
  readonly even: number;
  readonly fourInFive: number;
  readonly nineInTen: number;
  readonly marginGone: number | undefined;
};

export const stripFigures = (planned: { toNumber(): number }, landing: Landing): StripFigures => ({
  planned: planned.toNumber(),
  soFar: landing.soFar.minutes.toNumber(),
  even: landing.at['0.5'].minutes.toNumber(),
  fourInFive: landing.at['0.8'].minutes.toNumber(),
  nineInTen: landing.at['0.9'].minutes.toNumber(),
  marginGone: landing.marginGoneAt?.toNumber(),
});

const WIDTH = 640;
const LABELS = 120;
const ROW = 44;

/**
 * Planned, so far and forecast as three strips; the forecast is dark up to even chance, lighter to 4 in 5 and 9 in 10. A broken line
 * stands where the margin is gone. All figures stand in the table beside it.
 */
export const stripPicture = (figures: StripFigures): SafePicture | undefined => {
  const { planned, soFar, even, fourInFive, nineInTen, marginGone } = figures;
  const most = Math.max(planned, soFar, nineInTen);
  if (!(most > 0)) return undefined;
  const isShown = marginGone !== undefined && marginGone <= most * 1.5;
  const scale = (WIDTH - LABELS - 8) / Math.max(most, isShown ? marginGone : 0);
  const at = (minutes: number): string => (LABELS + minutes * scale).toFixed(1);
  const bar = (row: number, from: number, to: number, opacity: string): string =>
    to > from
      ? `<rect x="${at(from)}" y="${row * ROW + 10}" width="${((to - from) * scale).toFixed(1)}" height="24" fill="currentColor" fill-opacity="${opacity}"/>`
      : '';
  const label = (row: number, words: string): string =>
    `<text x="0" y="${row * ROW + 29}" font-size="20" fill="currentColor">${words}</text>`;
  const gone = isShown
    ? `<line x1="${at(marginGone)}" x2="${at(marginGone)}" y1="2" y2="${3 * ROW - 2}" stroke="currentColor" stroke-width="2" stroke-dasharray="5 4"/>`
    : '';
  return SafePicture.fromOwnDrawing(
    [
      `<svg class="strip" viewBox="0 0 ${WIDTH} ${3 * ROW}" role="img" aria-label="Planned, so far and forecast as strips; the figures stand in the table.">`,
      label(0, 'Planned'),
      bar(0, 0, planned, '0.35'),
      label(1, 'So far'),
      bar(1, 0, soFar, '1'),
      label(2, 'Forecast'),
      bar(2, 0, even, '0.7'),
      bar(2, even, fourInFive, '0.4'),
      bar(2, fourInFive, nineInTen, '0.18'),
      gone,
      '</svg>',
    ].join(''),
  );
};
