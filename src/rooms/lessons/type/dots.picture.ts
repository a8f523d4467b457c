import { SafePicture } from '../../../printing/templates/safe-picture.js';

/** Hours of every garment, and the three hours the next one is judged by. */
export type DotFigures = {
  readonly garments: readonly { readonly hours: number; readonly isFarOff: boolean }[];
  readonly even: number;
  readonly fourInFive: number;
  readonly nineInTen: number;
};

const WIDTH = 640;
const EDGE = 12;
const COLUMN = 10;
const MOST_HIGH = 12;
const DOT = 9;
/** Room for a label and a little air. */
const LABEL = 68;
const FLOOR = 60 + MOST_HIGH * DOT;

/**
 * Every garment as a dot over the hours it took, heaped where they are alike; the next one's even chance, 4 in 5 and 9 in 10 as lines.
 * A garment far off from the others is an empty dot at the edge. Where many heap up, a dot stands for several: `perDot` says how many.
 */
export const dotsPicture = ({
  garments,
  even,
  fourInFive,
  nineInTen,
}: DotFigures): { readonly picture: SafePicture; readonly perDot: number } => {
  const near = garments.filter(({ isFarOff }) => !isFarOff).map(({ hours }) => hours);
  const most = near.reduce((high, hours) => Math.max(high, hours), nineInTen) * 1.04;
  const scale = (WIDTH - 2 * EDGE) / most;
  const columns = (WIDTH - 2 * EDGE) / COLUMN - 1;
  const columnOf = (hours: number): number =>
    Math.max(0, Math.min(columns, Math.floor((hours * scale) / COLUMN)));
  const heaps = new Map<string, { readonly column: number; readonly isFarOff: boolean; count: number }>();
  for (const { hours, isFarOff } of garments) {
    const column = columnOf(hours);
    const heap = heaps.get(`${column} ${isFarOff}`) ?? { column, isFarOff, count: 0 };
    heap.count += 1;
    heaps.set(`${column} ${isFarOff}`, heap);
  }
  const highest = [...heaps.values()].reduce((high, { count }) => Math.max(high, count), 1);
  const perDot = Math.ceil(highest / MOST_HIGH);
  const dots = [...heaps.values()].flatMap(({ column, isFarOff, count }) =>
    Array.from({ length: Math.ceil(count / perDot) }, (_, level) => {
      const [x, y] = [EDGE + (column + 0.5) * COLUMN, FLOOR - 5 - level * DOT];
      return isFarOff
        ? `<circle cx="${x}" cy="${y}" r="3.5" fill="none" stroke="currentColor" stroke-width="1.5"/>`
        : `<circle cx="${x}" cy="${y}" r="4" fill="currentColor"/>`;
    }),
  );
  // Each label stands a step lower than the next, so that left of it there is never a line; right of it the next line may stand too near.
  const mark = (hours: number, words: string, row: number, dashes: string, next = Infinity): string => {
    const x = EDGE + hours * scale;
    const isLate = x > WIDTH - LABEL || (x > LABEL && EDGE + next * scale < x + LABEL);
    return [
      `<line x1="${x.toFixed(1)}" x2="${x.toFixed(1)}" y1="${row * 18 + 4}" y2="${FLOOR}" stroke="currentColor" stroke-width="1.5"${dashes ? ` stroke-dasharray="${dashes}"` : ''}/>`,
      `<text x="${(x + (isLate ? -5 : 5)).toFixed(1)}" y="${row * 18 + 16}" font-size="16" fill="currentColor" text-anchor="${isLate ? 'end' : 'start'}">${words}</text>`,
    ].join('');
  };
  const picture = SafePicture.fromOwnDrawing(
    [
      `<svg class="strip" viewBox="0 0 ${WIDTH} ${FLOOR + 8}" role="img" aria-label="Every garment as a dot over the hours it took, with even chance, 4 in 5 and 9 in 10 of the next one; the figures stand in the table.">`,
      `<line x1="${EDGE}" x2="${WIDTH - EDGE}" y1="${FLOOR}" y2="${FLOOR}" stroke="currentColor" stroke-width="1"/>`,
      ...dots,
      mark(even, 'even', 2, '', fourInFive),
      mark(fourInFive, '4 in 5', 1, '6 4', nineInTen),
      mark(nineInTen, '9 in 10', 0, '2 3'),
      '</svg>',
    ].join(''),
  );
  return { picture, perDot };
};
