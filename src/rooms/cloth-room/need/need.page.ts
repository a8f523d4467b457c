import type { StudioIdentity } from '../../../domain/house/studio.js';
import { ONLY_THE_LAY_DECIDES } from '../../../domain/stock/need/cloth-need.js';
import { CHART_SOURCE } from '../../../domain/stock/need/width-chart.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import type { PageWords } from '../../../web/reply.js';
import { clothRoomCrumb } from '../cloth-room.page.js';
import { inWords } from '../stock-fields.js';
import type { ClothNeed, NeedSaid, NeedSteps } from './cloth-need.js';

const shown = (amount: NeedSteps['length'], { unit }: ClothNeed, { locale }: StudioIdentity): string =>
  inWords(amount.toDecimalPlaces(2), unit, locale);

/** How much cloth at another width: the question, and the answer under it. */
export const needPage = (
  form: FormModel,
  identity: StudioIdentity,
  answered?: { readonly need: ClothNeed; readonly said: NeedSaid },
): { template: string; words: PageWords } => ({
  template: 'cloth-room/need/need',
  words: {
    title: 'How much cloth',
    room: 'cloth-room',
    crumbs: [clothRoomCrumb],
    form: { ...form, action: '/cloth-room/need' },
    unit: identity.clothUnit,
    answered: answered !== undefined,
    lead: answered ? leadOf(answered.need, identity) : '',
    caution: ONLY_THE_LAY_DECIDES,
    source: CHART_SOURCE,
    steps: answered
      ? stepsTable(answered.need, answered.said, identity)
      : { caption: '', columns: [], rows: [] },
    noChart: answered?.need.noChart ?? '',
  },
});

const leadOf = (need: ClothNeed, identity: StudioIdentity): string => {
  const area = `${shown(need.byArea.toBuy, need, identity)} by area`;
  if (!need.byChart) return `Buy ${area}.`;
  const { read, toBuy } = need.byChart;
  const quarter = read.withQuarter ? ', with the quarter yard its note asks for' : '';
  return `Buy ${shown(toBuy, need, identity)} by the chart (from ${read.from} to ${read.to}${quarter}), or ${area}.`;
};

const stepsTable = (need: ClothNeed, said: NeedSaid, identity: StudioIdentity): object => {
  const columns: NeedSteps[] = [need.byArea, ...(need.byChart ? [need.byChart] : [])];
  const row = (text: string, of: (steps: NeedSteps) => NeedSteps['length']) => ({
    cells: [{ text }, ...columns.map((steps) => ({ text: shown(of(steps), need, identity) }))],
  });
  return {
    caption: 'Step by step',
    columns: [
      { text: 'Step' },
      { text: 'By area', figure: true },
      ...(need.byChart ? [{ text: 'By the chart', figure: true }] : []),
    ],
    rows: [
      row(`At ${said.otherWidth.shown}`, ({ length }) => length),
      row('Pattern repeat', ({ repeat }) => repeat),
      row('Before it shrinks', ({ shrunk }) => shrunk),
      row(
        said.wasteOf === 'net' ? 'With waste on what is used' : 'With waste in the whole length',
        ({ toBuy }) => toBuy,
      ),
    ],
  };
};
