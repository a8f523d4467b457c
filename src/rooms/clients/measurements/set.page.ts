import type { KeptSet } from '../../../storage/books/measuring/measurement-book.js';
import type { PageWords } from '../../../web/reply.js';
import { dateInWords } from '../../../web/words/dates.js';
import { differenceInWords, lengthInWords } from '../../../web/words/lengths.js';
import { clientsCrumb, clientUrl } from '../client.page.js';
import { wordsOf } from './measuring-rows.js';
import { type MeasuringDesk, measurementsUrl, setUrl } from './take.page.js';
import { changesIn, setsInWords, throughTime } from './through-time.js';

const crumbsOf = ({ client }: MeasuringDesk) => [
  clientsCrumb,
  { text: client.name, href: clientUrl(client.id) },
  { text: 'Measurements', href: measurementsUrl(client.id) },
];

/** One set: what was measured, and what changed since the time before. */
export const setPage = (desk: MeasuringDesk, set: KeptSet): PageWords => {
  const { client, sets, known, types } = desk;
  const newer = sets.find(({ insteadOf }) => insteadOf === set.id);
  const older = sets.find(({ id }) => id === set.insteadOf);
  const changes = changesIn(sets, set);
  return {
    title: `${client.name}, ${dateInWords(set.takenOn)}`,
    tab: `Measurements of ${dateInWords(set.takenOn)}, ${client.code}`,
    room: 'clients',
    crumbs: crumbsOf(desk),
    newer: newer
      ? {
          text: `This set was taken again. The one of ${dateInWords(newer.takenOn)} stands in its place`,
          href: setUrl(newer),
        }
      : undefined,
    older: older
      ? { text: 'It was taken instead of an earlier set with a slip in it', href: setUrl(older) }
      : undefined,
    facts: [
      { label: 'Client', text: client.code },
      { label: 'Taken on', text: dateInWords(set.takenOn) },
      { label: 'Measured by', text: set.takenBy },
      { label: 'Over', text: set.over },
      { label: 'Guardian present', text: set.guardian },
      { label: 'List', text: types.find(({ id }) => id === set.garmentType)?.name ?? '' },
    ].filter(({ text }) => text !== ''),
    figuration: set.figuration.split('\n').filter((line) => line !== ''),
    taken: {
      caption: 'As taken',
      quietCaption: true,
      columns: [
        { text: 'Measurement' },
        { text: 'As taken', figure: true },
        { text: 'Change', figure: true },
        { text: 'Before', figure: true },
      ],
      rows: changes.map((change) => {
        const { word, iso } = wordsOf(
          known.find(({ id }) => id === change.dimension) ?? {
            id: change.dimension,
            name: change.dimension,
            fromStandard: false,
            tradeWord: '',
            sort: 'length',
            how: '',
            source: '',
          },
        );
        const value = set.values.find(({ dimension }) => dimension === change.dimension);
        return {
          cells: [
            { text: word, note: iso },
            { text: lengthInWords(change.now), note: value?.confirmed ? 'asked about, and right' : '' },
            { text: differenceInWords(change) },
            {
              text: change.before ? lengthInWords(change.before) : '',
              note: change.since ? dateInWords(change.since) : '',
            },
          ],
        };
      }),
    },
    cardUrl: `${setUrl(set)}/card.pdf`,
    againUrl: newer ? '' : `${measurementsUrl(client.id)}/new?again=${set.id}`,
  };
};

/** Every set of a client, and the newest of them through time. */
export const setsPage = (desk: MeasuringDesk): PageWords => {
  const { client, sets, known, types } = desk;
  return {
    title: `Measurements of ${client.name}`,
    tab: `Measurements, ${client.code}`,
    room: 'clients',
    crumbs: crumbsOf(desk).slice(0, 2),
    any: sets.length > 0,
    newUrl: `${measurementsUrl(client.id)}/new`,
    time: throughTime(sets, known, 5),
    sets: setsInWords(sets, new Map(types.map(({ id, name }) => [id, name]))),
    blanks: types
      .filter(({ measuringList }) => measuringList.length > 0)
      .map(({ id, name }) => ({ text: name, href: `${measurementsUrl(client.id)}/blank.pdf?type=${id}` })),
  };
};
