import type { GarmentType } from '../../../domain/making/garment-type.js';
import type { BodyDimension } from '../../../domain/measuring/body-dimension.js';
import { blankCard, type MeasurementCard } from '../../../printing/papers/measurement-card.js';
import type { KeptSet } from '../../../storage/books/measuring/measurement-book.js';
import { dateInWords } from '../../../web/words/dates.js';
import { lengthInWords } from '../../../web/words/lengths.js';
import { capital, wordsOf } from './measuring-rows.js';
import type { MeasuringDesk } from './take.page.js';
import { changesIn } from './through-time.js';

/** What a card says of the house. */
export type CardHouse = { readonly studio: string; readonly language: string };

const rowOf = (known: readonly BodyDimension[], id: string, value: string, change: string) => {
  const dimension = known.find((one) => one.id === id);
  const { word, iso } = dimension ? wordsOf(dimension) : { word: id, iso: '' };
  return { trade: word, iso, value, change };
};

/** A set as a measurement card: the client's code and never the name; what did not change is left open. */
export const cardOfSet = (desk: MeasuringDesk, set: KeptSet, house: CardHouse): MeasurementCard => ({
  ...house,
  purpose: capital(desk.types.find(({ id }) => id === set.garmentType)?.name ?? ''),
  clientCode: desk.client.code,
  date: dateInWords(set.takenOn),
  measuredBy: set.takenBy,
  takenOver: set.over,
  measurements: changesIn(desk.sets, set).map(({ dimension, now, mm, shown }) =>
    rowOf(desk.known, dimension, lengthInWords(now), mm === undefined || mm === '0' ? '' : (shown ?? '')),
  ),
  figuration: set.figuration.split('\n').filter((line) => line !== ''),
  notes: [],
  spareRows: 0,
});

/** The ruled copy of a type's list, to fill in by hand. */
export const blankCardOf = (
  known: readonly BodyDimension[],
  type: GarmentType,
  house: CardHouse,
): MeasurementCard =>
  blankCard({
    ...house,
    purpose: capital(type.name),
    clientCode: '',
    date: '',
    measuredBy: '',
    takenOver: '',
    measurements: type.measuringList.map((id) => rowOf(known, id, '', '')),
    figuration: [],
    notes: [],
    spareRows: 0,
  });
