import type { Proof } from '../../../domain/estimating/proof/backtest.js';
import { SafePicture } from '../../../printing/templates/safe-picture.js';

const WIDTH = 640;
const HIGH = 220;
const EDGE = 16;
const MIDDLE = HIGH / 2;
/** A garment of twice or half the foretold time touches the edge. */
const REACH = Math.log(2);
const MOST = 200;

/**
 * The newest garments from left to right: how far each lay above or below its even-chance hours (the line), and a tick where its 4 in 5 lay. A
 * dot at or below its tick kept the 4 in 5.
 */
export const proofPicture = (trail: readonly Proof[]): SafePicture | undefined => {
  const shown = trail.slice(-MOST);
  if (shown.length === 0) return undefined;
  const step = (WIDTH - 2 * EDGE) / shown.length;
  const heightOf = (ratio: number): string => {
    const log = Math.max(-REACH, Math.min(REACH, Math.log(ratio)));
    return (MIDDLE - (log / REACH) * (MIDDLE - 10)).toFixed(1);
  };
  const half = Math.min(8, step * 0.4);
  const marks = shown.map(({ actual, middle, fourInFive }, place) => {
    const x = EDGE + (place + 0.5) * step;
    const tick = heightOf(fourInFive / middle);
    return `<line x1="${(x - half).toFixed(1)}" x2="${(x + half).toFixed(1)}" y1="${tick}" y2="${tick}" stroke="currentColor" stroke-width="1.5"/><circle cx="${x.toFixed(1)}" cy="${heightOf(actual / middle)}" r="${Math.min(4, half).toFixed(1)}" fill="currentColor"/>`;
  });
  return SafePicture.fromOwnDrawing(
    [
      `<svg class="strip" viewBox="0 0 ${WIDTH} ${HIGH}" role="img" aria-label="Garments from the oldest to the newest: dots show what they took against even chance, ticks their 4 in 5; the figures stand in the table.">`,
      `<line x1="0" x2="${WIDTH}" y1="${MIDDLE}" y2="${MIDDLE}" stroke="currentColor" stroke-width="1" stroke-dasharray="5 4"/>`,
      ...marks,
      '</svg>',
    ].join(''),
  );
};
