import { isStage, type Mode, STAGE_WORDS, type Stage } from '../../making/mode.js';
import { asked, type Choice, type Reading, refused, understood } from '../../measuring/reading.js';
import { foldTyped, quoted } from '../../measuring/typed-text.js';
import { AWAY_WORDS, type AwayKind } from '../bench-entry.js';
import { wordsOf } from './compare-words.js';
import { pickNamed, pickOneOf } from './pick-out.js';
import type { PlaceToWork } from './place-to-work.js';
import { type NamedWork, placesInWords, placesNamed, type WorkAsked, workNamed } from './work-named.js';

/** What went into a line of time: the work, by its keys. */
export type LineWork = {
  readonly garmentId?: string;
  readonly operationId?: string;
  readonly stage?: Stage;
  readonly away?: AwayKind;
  readonly mode?: Mode;
};

const MOST_CHOICES = 8;
const MODE_FIRST = /^(hand|machine|press|bench|fitting|desk) (?=\S)/;
const MODE_PHRASE: readonly [string, Mode][] = [
  ['by hand', 'hand'],
  ['by machine', 'machine'],
  ['at the press', 'press'],
  ['at the bench', 'bench'],
  ['at the desk', 'desk'],
];

/** Words for what is meant, with what tells it from the others. */
export const workWords = (work: NamedWork): string => {
  if (work.is === 'away') return AWAY_WORDS[work.away];
  const { at } = work;
  const what = work.is === 'stage' ? `${STAGE_WORDS[work.stage]}, the whole stage` : work.operation.name;
  return `${what}: ${at.name}, ${at.commissionNumber} no. ${at.place}`;
};

/** The same work as a line that needs no further question. */
const workTyped = (work: NamedWork): string => {
  if (work.is === 'away') return `without a garment ${work.away}`;
  const what = work.is === 'stage' ? `whole stage ${work.stage}` : `line ${work.operation.no}`;
  return `${what} ${work.at.commissionNumber} no ${work.at.place}`;
};

type Said = { readonly asked: WorkAsked; readonly rest: string };

const garmentSaid = (line: string, places: readonly PlaceToWork[]): Said => {
  const numbers = new Map(places.map((at) => [foldTyped(at.commissionNumber), at.commissionNumber]));
  const commission = pickOneOf(line, [...numbers.keys()]);
  const afterNumber = commission
    ? new RegExp(`(?:^| )${escaped(commission.text)} (?:(?:no\\.?|number) ?)?(\\d{1,2})(?= |$)`).exec(line)
    : null;
  const rest = afterNumber
    ? line.replace(afterNumber[0], '').replace(/ +/g, ' ').trim()
    : (commission?.rest ?? line);
  const named = afterNumber ? undefined : pickNamed(rest, 'no\\.?|number');
  const isPlace = named !== undefined && /^\d{1,2}$/.test(named.text);
  const place = afterNumber?.[1] ?? (isPlace ? named.text : undefined);
  return {
    asked: {
      words: [],
      commissionNumber: commission ? numbers.get(commission.text) : undefined,
      place: place === undefined ? undefined : Number(place),
    },
    rest: isPlace ? named.rest : rest,
  };
};

/** A text as it stands, for a pattern. */
export const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\/-]/g, '\\$&');

const workSaid = (line: string, places: readonly PlaceToWork[]): Said => {
  const garment = garmentSaid(line, places);
  let rest = garment.rest;
  const away = pickOneOf(rest, ['without a garment']);
  if (away) rest = away.rest;
  const stage = pickNamed(rest, 'whole stage');
  if (stage && isStage(stage.text))
    return { asked: { ...garment.asked, stage: stage.text }, rest: stage.rest };
  const no = pickNamed(rest, 'line');
  if (no && /^\d{1,3}$/.test(no.text))
    return { asked: { ...garment.asked, no: Number(no.text) }, rest: no.rest };
  const phrase = MODE_PHRASE.find(([words]) => ` ${rest} `.includes(` ${words} `));
  if (phrase) rest = pickOneOf(rest, [phrase[0]])?.rest ?? rest;
  return { asked: { ...garment.asked, isAway: away !== undefined, mode: phrase?.[1] }, rest };
};

/** A word for a mode that stands first is the mode, where other words name the work. */
const withMode = ({ asked: said, rest }: Said, places: readonly PlaceToWork[]): WorkAsked => {
  const words = (text: string) => wordsOf(text).filter((word) => !/^\d+$/.test(word));
  const first = MODE_FIRST.exec(rest)?.[1] as Mode | undefined;
  if (!first || said.mode) return { ...said, words: words(rest) };
  const others = words(rest.slice(first.length));
  const names = others.length > 0 && placesInWords(others, places).length === 0;
  return names ? { ...said, mode: first, words: others } : { ...said, words: words(rest) };
};

const keysOf = (work: NamedWork, mode: Mode | undefined): LineWork => {
  if (work.is === 'away') return { away: work.away };
  const { garmentId } = work.at;
  if (work.is === 'stage') return { garmentId, stage: work.stage };
  return { garmentId, operationId: work.operation.id, ...(mode ? { mode } : {}) };
};

const askWhich = (
  found: readonly NamedWork[],
  about: string,
  before: string,
  after: string,
): Reading<LineWork> => {
  const more = found.length > MOST_CHOICES ? ` Name the garment too: there are ${found.length}.` : '';
  const choice = (work: NamedWork): Choice => ({
    words: workWords(work),
    typed: `${before} ${workTyped(work)} ${after}`.trim(),
  });
  return asked(`Which work is ${about}?${more}`, found.slice(0, MOST_CHOICES).map(choice));
};

/** A whole stage of several modes cannot be worked in one of them: then it is asked which of its operations it was. */
const inMode = (work: NamedWork, mode: Mode | undefined): readonly NamedWork[] => {
  if (work.is !== 'stage' || !mode) return [work];
  const { at, stage } = work;
  const there = at.operations.filter((operation) => operation.stage === stage);
  const such = there.filter((operation) => operation.mode === mode);
  if (such.length === there.length) return [work];
  return (such.length > 0 ? such : there).map((operation) => ({ is: 'operation', at, operation }));
};

/**
 * Reads what work a line names, such as `lapels`, `basting waistcoat`, `collar C-2026-014 2`, `sweeping`.
 *
 * @param places garments that are being made, the likeliest first, their operations the likeliest first
 * @param before and `after`: what a choice's own line says round the work, so that it needs no further question
 */
export const readWork = (
  folded: string,
  places: readonly PlaceToWork[],
  before = '',
  after = '',
): Reading<LineWork> => {
  const said = withMode(workSaid(folded, places), places);
  const found = workNamed(said, places);
  const work = found.length === 1 && found[0] ? inMode(found[0], said.mode) : found;
  const [only] = work;
  if (only && work.length === 1) return understood(keysOf(only, said.mode));
  if (only)
    return askWhich(
      work,
      said.words.length > 0 ? quoted(asTyped(said.words, folded)) : 'this',
      before,
      after,
    );
  const there = placesInWords(said.words, placesNamed(said, places));
  const isNamed = said.words.length > 0 || said.commissionNumber !== undefined || said.place !== undefined;
  const likeliest = isNamed ? there.flatMap((at) => likeliestOf(at)) : [];
  if (likeliest.length > 0) return askWhich(likeliest, 'it', before, after);
  return isNamed
    ? refused(
        `No garment that is being made has ${quoted(asTyped(said.words, folded) || folded)} in its plan. Say the garment too, or choose “Not in the plan” on its page.`,
      )
    : refused('What was it for? Write the work and the garment, such as “1h30 lapels jacket”.');
};

/** The words as they were typed, with their plural s, to ask about them. */
const asTyped = (words: readonly string[], folded: string): string =>
  folded
    .split(' ')
    .filter((one) => wordsOf(one).some((word) => words.includes(word)))
    .join(' ');

const likeliestOf = (at: PlaceToWork): NamedWork[] =>
  at.operations
    .filter(({ finished }) => !finished)
    .slice(0, 5)
    .map((operation) => ({ is: 'operation', at, operation }));
