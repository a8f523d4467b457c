import type { Backtest, Proof, Score } from '../../../domain/estimating/proof/backtest.js';
import { Decimal } from '../../../domain/kernel/decimal.js';
import { wholeMinutes } from '../../../domain/kernel/minutes.js';
import type { ProofSoFar } from '../../../storage/lesson/proof-shelf.js';
import type { PageWords } from '../../../web/reply.js';
import { capitalised, countInWords } from '../../../web/words/counts.js';
import { minutesInWords } from '../../../web/words/durations.js';
import { shareInWords } from '../../../web/words/shares.js';
import { lessonsCrumb, ratioInWords } from '../lesson-words.js';
import { proofPicture } from './proof.picture.js';

/** With fewer nobody can tell luck from truth. */
export const FEWEST = 5;
const MOST_SHOWN = 100;

/** How good the prices are: what was stated against what came true. */
export const proofPage = (
  { proof, isCurrent }: ProofSoFar,
  names: ReadonlyMap<string, string>,
): PageWords => {
  const told: PageWords = {
    title: 'How good are the prices',
    room: 'lessons',
    crumbs: [lessonsCrumb],
    picture: null,
    scores: '',
    trail: '',
    more: '',
    waits: !isCurrent,
  };
  if (!proof) return { ...told, lead: 'This is being worked out. Look again in a moment.' };
  if (proof.garments < FEWEST)
    return {
      ...told,
      lead: `${capitalised(countInWords(proof.garments, 'closed garment'))} with planned and worked time ${proof.garments === 1 ? 'is' : 'are'} too few to tell luck from truth. This page speaks from ${FEWEST} on.`,
    };
  const { trail } = proof;
  return {
    ...told,
    lead: leadOf(proof),
    picture: proofPicture(trail) ?? null,
    scores: scoresTable(proof),
    trail: trailTable(trail, names),
    more: trail.length > MOST_SHOWN ? `and ${trail.length - MOST_SHOWN} earlier ones.` : '',
  };
};

/** A share as a count of garments: 0.8 of 10 is 8. */
export const countOf = (share: number, garments: number): number =>
  wholeMinutes(new Decimal(share.toFixed(9)).times(garments));

const leadOf = ({ garments, lesson }: Backtest): string => {
  const kept = countOf(lesson.atMostP80, garments);
  return `Of ${garments} garments, ${kept} took no longer than their 4-in-5 hours; a fair statement keeps about ${wholeMinutes(new Decimal(garments).times('0.8'))}. Each was foretold from what was known before it.`;
};

const scoresTable = ({ garments, lesson, ownPlan, averageRatio }: Backtest): object => {
  const count = (share: number): string => `${countOf(share, garments)} of ${garments}`;
  const row = (label: string, score: Score): object => ({
    cells: [
      { text: label },
      { text: count(score.atMostP80), note: shareInWords(new Decimal(score.atMostP80.toFixed(6))) },
      { text: count(score.within80), note: shareInWords(new Decimal(score.within80.toFixed(6))) },
      { text: count(score.within90), note: shareInWords(new Decimal(score.within90.toFixed(6))) },
      { text: ratioInWords(new Decimal(Math.exp(score.medianBias).toFixed(6))) },
      { text: new Decimal(score.crps.toFixed(3)).toFixed(3) },
    ],
  });
  return {
    caption: 'Three ways to foretell the same garments',
    columns: [
      { text: 'Way' },
      { text: 'Within 4 in 5', figure: true },
      { text: 'In the middle 4 in 5', figure: true },
      { text: 'In the middle 9 in 10', figure: true },
      { text: 'Took, against its middle' },
      { text: 'Miss', figure: true },
    ],
    rows: [
      row('The lesson', lesson),
      row('Your own plan', ownPlan),
      row('Your plan × the average ratio', averageRatio),
    ],
  };
};

const trailTable = (trail: readonly Proof[], names: ReadonlyMap<string, string>): object => {
  const minutes = (value: number): string => minutesInWords(wholeMinutes(new Decimal(value.toFixed(3))));
  return {
    caption: 'Garment by garment, newest first',
    columns: [
      { text: 'Garment' },
      { text: 'Planned', figure: true },
      { text: 'Even', figure: true },
      { text: '4\u00a0in\u00a05', figure: true },
      { text: 'Took', figure: true },
      { text: 'Against even' },
    ],
    rows: trail
      .slice(-MOST_SHOWN)
      .reverse()
      .map((one) => ({
        cells: [
          { text: capitalised(names.get(one.garmentType) ?? one.garmentType) },
          { text: minutes(one.planned) },
          { text: minutes(one.middle) },
          { text: minutes(one.fourInFive) },
          { text: minutes(one.actual), note: one.actual > one.fourInFive ? 'over its 4 in 5' : '' },
          { text: ratioInWords(new Decimal((one.actual / one.middle).toFixed(6))) },
        ],
      })),
  };
};
