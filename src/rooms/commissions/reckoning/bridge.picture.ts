import { type FrozenReckoning, frozenMoney } from '../../../domain/reckoning/frozen-reckoning.js';
import { BRIDGE_WORDS } from '../../../domain/reckoning/reckon.js';
import { SafePicture } from '../../../printing/templates/safe-picture.js';
import { capitalised } from '../../../web/words/counts.js';

const WIDTH = 640;
const LABELS = 280;
const ROW = 30;

/** Of `own error, against what …` the first words: the table says the rest. */
const shortName = (words: string): string => capitalised(words.split(',')[0] ?? words);

/**
 * The bridge drawn: each bar begins where the one before ended, from the quoted profit at the top to the actual one at the foot.
 * What took away is hollow, what added is filled, so that it reads without colour. All figures stand in the table beside it.
 */
export const bridgePicture = (
  one: Pick<FrozenReckoning, 'currency' | 'quotedProfit' | 'actualProfit' | 'bridge'>,
): SafePicture | undefined => {
  const minor = (text: string): number => frozenMoney(one, text).minor;
  let at = minor(one.quotedProfit);
  const bars = [{ from: 0, to: at, words: 'Profit as quoted' }];
  for (const { step, amount } of one.bridge) {
    if (minor(amount) === 0) continue;
    bars.push({ from: at, to: at + minor(amount), words: shortName(BRIDGE_WORDS[step]) });
    at += minor(amount);
  }
  bars.push({ from: 0, to: minor(one.actualProfit), words: 'Profit as it was' });
  const ends = bars.flatMap(({ from, to }) => [from, to]);
  const [least, most] = [Math.min(0, ...ends), Math.max(0, ...ends)];
  if (most === least) return undefined;
  const x = (value: number): number => LABELS + ((value - least) / (most - least)) * (WIDTH - LABELS - 4);
  const drawn = bars.map(({ from, to, words }, row) => {
    const [left, right] = [Math.min(x(from), x(to)), Math.max(x(from), x(to))];
    const isWhole = row === 0 || row === bars.length - 1;
    const fill = isWhole ? '0.85' : to >= from ? '0.45' : '0';
    const label = `<text x="0" y="${row * ROW + 20}" font-size="19" fill="currentColor">${words}</text>`;
    return `${label}<rect x="${left.toFixed(1)}" y="${row * ROW + 6}" width="${Math.max(1, right - left).toFixed(1)}" height="16" fill="currentColor" fill-opacity="${fill}" stroke="currentColor" stroke-width="1.5"/>`;
  });
  const height = bars.length * ROW;
  return SafePicture.fromOwnDrawing(
    [
      `<svg class="strip" viewBox="0 0 ${WIDTH} ${height}" role="img" aria-label="The bridge from the quoted to the actual profit; the figures stand in the table.">`,
      `<line x1="${x(0).toFixed(1)}" x2="${x(0).toFixed(1)}" y1="0" y2="${height}" stroke="currentColor" stroke-width="1"/>`,
      ...drawn,
      '</svg>',
    ].join(''),
  );
};
