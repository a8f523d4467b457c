import { type Mode, STAGE_WORDS, STAGES, type Stage } from '../../making/mode.js';
import { AWAY_KINDS, AWAY_WORDS, type AwayKind } from '../bench-entry.js';
import { type Fit, fitOf, isAmong, wordsOf } from './compare-words.js';
import type { NamedOperation, PlaceToWork } from './place-to-work.js';

/** What words of a line may mean: a line of a plan, a whole stage, or time without a garment. */
export type NamedWork =
  | { readonly is: 'operation'; readonly at: PlaceToWork; readonly operation: NamedOperation }
  | { readonly is: 'stage'; readonly at: PlaceToWork; readonly stage: Stage }
  | { readonly is: 'away'; readonly away: AwayKind };

/** The words, and what the line says of the work beside them. */
export type WorkAsked = {
  readonly words: readonly string[];
  readonly commissionNumber?: string | undefined;
  readonly place?: number | undefined;
  /** A line of the plan by its number. */
  readonly no?: number | undefined;
  /** A whole stage, said as `whole stage baste`. */
  readonly stage?: Stage | undefined;
  readonly isAway?: boolean | undefined;
  readonly mode?: Mode | undefined;
};

type Fitting = { readonly work: NamedWork; readonly fit: Fit };

const best = (found: readonly Fitting[]): readonly Fitting[] => {
  const least = Math.min(...found.map(({ fit }) => fit));
  return found.filter(({ fit }) => fit === least);
};

const targetsOf = (at: PlaceToWork, words: readonly string[]): Fitting[] => {
  if (words.length === 0) return [];
  const operations = at.operations.flatMap((operation): Fitting[] => {
    const fits = [fitOf(words, wordsOf(operation.name)), fitOf(words, wordsOf(operation.kind))];
    const said = fits.filter((fit) => fit !== undefined);
    return said.length > 0
      ? [{ work: { is: 'operation', at, operation }, fit: Math.min(...said) as Fit }]
      : [];
  });
  const stages = STAGES.flatMap((stage): Fitting[] => {
    const fit = fitOf(words, wordsOf(STAGE_WORDS[stage]));
    const there = at.operations.filter((operation) => operation.stage === stage);
    return fit === undefined || fit > 1 || there.length === 0
      ? []
      : [{ work: { is: 'stage', at, stage }, fit }];
  });
  return [...operations, ...stages];
};

/** In one garment: its own name and its wearer's may stand in the line, the other words name the work. */
const inGarment = (at: PlaceToWork, words: readonly string[]): readonly Fitting[] => {
  const own = wordsOf(`${at.name} ${at.wearerName}`);
  const rest = words.filter((word) => !isAmong(word, own));
  return best([...targetsOf(at, words), ...(rest.length < words.length ? targetsOf(at, rest) : [])]);
};

const awayOf = (words: readonly string[]): readonly Fitting[] =>
  best(
    AWAY_KINDS.flatMap((away): Fitting[] => {
      const fits = [fitOf(words, wordsOf(away)), fitOf(words, wordsOf(AWAY_WORDS[away]))];
      const said = fits.filter((fit) => fit !== undefined && fit < 4) as Fit[];
      return away === 'other' || said.length === 0
        ? []
        : [{ work: { is: 'away', away }, fit: Math.min(...said) as Fit }];
    }),
  );

const modeOf = ({ work }: Fitting): Mode | undefined =>
  work.is === 'operation' ? work.operation.mode : undefined;

const keyOf = (work: NamedWork): string =>
  work.is === 'away'
    ? work.away
    : `${work.at.garmentId} ${work.is === 'operation' ? work.operation.id : work.stage}`;

/** What was left unfinished before what is finished; else as they fit, then as the garments came. */
const inOrder = (found: readonly Fitting[]): readonly NamedWork[] => {
  const isFinished = ({ work }: Fitting): number =>
    work.is === 'operation' && work.operation.finished ? 1 : 0;
  return [...found].sort((a, b) => isFinished(a) - isFinished(b) || a.fit - b.fit).map(({ work }) => work);
};

/**
 * The work that words may mean, best first. Within a garment the better fit wins over the worse; between garments, and
 * between a garment and none, nothing wins: whoever asks must ask on. Beginnings of words count only where nothing else fits.
 *
 * A mode that was said narrows what fits equally well.
 *
 * @param places garments that are being made, the likeliest first
 * @returns none where nothing fits; one where it is plain; several where it must be asked
 * @see test/domain/bench/time-line.test.ts
 */
export const workNamed = (asked: WorkAsked, places: readonly PlaceToWork[]): readonly NamedWork[] => {
  const { words, no, stage, mode } = asked;
  if (asked.isAway) return inOrder(awayOf(words));
  const there = placesNamed(asked, places);
  if (no !== undefined)
    return there.flatMap((at) =>
      at.operations
        .filter((operation) => operation.no === no)
        .map((operation): NamedWork => ({ is: 'operation', at, operation })),
    );
  if (stage) return there.map((at): NamedWork => ({ is: 'stage', at, stage }));
  if (words.length === 0) return [];
  const away = asked.commissionNumber === undefined && asked.place === undefined ? awayOf(words) : [];
  const every = [...there.flatMap((at) => inGarment(at, words)), ...away];
  const sure = every.filter(({ fit }) => fit < 4);
  const all = sure.length > 0 ? sure : every;
  const seen = new Set<string>();
  const found = all.filter(({ work }) => !seen.has(keyOf(work)) && seen.add(keyOf(work)));
  const inMode = mode ? found.filter((one) => modeOf(one) === mode || one.work.is === 'stage') : [];
  return inOrder(inMode.length > 0 ? inMode : found);
};

/** The garments a line can mean: by commission and number where it says them. */
export const placesNamed = (
  { commissionNumber, place }: Pick<WorkAsked, 'commissionNumber' | 'place'>,
  places: readonly PlaceToWork[],
): readonly PlaceToWork[] =>
  places.filter(
    (at) =>
      (commissionNumber === undefined || at.commissionNumber === commissionNumber) &&
      (place === undefined || at.place === place),
  );

/** The garments that the words themselves name, by garment or wearer, where they name nothing else. */
export const placesInWords = (
  words: readonly string[],
  places: readonly PlaceToWork[],
): readonly PlaceToWork[] =>
  places.filter((at) => {
    const own = wordsOf(`${at.name} ${at.wearerName}`);
    return words.every((word) => isAmong(word, own));
  });
