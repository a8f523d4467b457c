import type { StudioIdentity } from '../../../domain/house/studio.js';
import type { StockEntry } from '../../../domain/stock/entry.js';
import { type Lot, SHORT_CLOTH_REMEDIES } from '../../../domain/stock/lot.js';
import type { Material } from '../../../domain/stock/material.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import { freshForm } from '../../../web/forms/form.js';
import type { PageWords } from '../../../web/reply.js';
import { moneyInWords } from '../../../web/words/amounts.js';
import { capitalised } from '../../../web/words/counts.js';
import { dateInWords } from '../../../web/words/dates.js';
import { clothRoomCrumb, lotUrl, materialUrl } from '../cloth-room.page.js';
import { entriesTable } from '../materials/material.page.js';
import { inWords, rateInWords, unitInWords } from '../stock-fields.js';
import { originInWords } from './lot-words.js';

/** Everything a lot's page tells. */
export type LotTold = {
  readonly lot: Lot;
  readonly material: Material;
  readonly owner: { readonly id: string; readonly name: string } | undefined;
  readonly entries: readonly StockEntry[];
  readonly today: string;
  readonly identity: StudioIdentity;
};

/** Which of a lot's forms was refused, with what was typed. */
export type LotAgain = { readonly which: 'measured' | 'away'; readonly form: FormModel };

const CHARGED_WORDS = { replacement: 'what it would cost to replace', cost: 'what it cost', nil: 'nothing' };

/** One lot: what it is, what is left, what to mind, and what can be done with it. */
export const lotPage = (told: LotTold, again?: LotAgain): { template: string; words: PageWords } => {
  const { lot, material, entries, identity, today } = told;
  const { locale } = identity;
  const url = lotUrl(lot.id);
  const isTheirs = lot.origin === 'custody';
  const anyLeft = lot.left.gt(0);
  const formOf = (which: LotAgain['which']): FormModel => {
    const model = again?.which === which ? again.form : freshForm('', { on: today });
    return { ...model, action: `${url}/${which}`, idPrefix: `${which}-` };
  };
  return {
    template: 'cloth-room/lots/lot',
    words: {
      title: `${lot.code}, ${material.name}`,
      room: 'cloth-room',
      crumbs: [clothRoomCrumb, { text: material.name, href: materialUrl(material.id) }],
      ...(again ? { form: formOf(again.which) } : {}),
      lead: anyLeft
        ? `${inWords(lot.left, material.unit, locale)} of ${inWords(lot.received, material.unit, locale)} are left${isTheirs ? ', none of it ours' : `, in the book at ${moneyInWords(lot.value, locale)}`}.`
        : 'Nothing of it is left.',
      ageUnknown: lot.age === 'unknown' && lot.cautions.some(({ dismissedAt }) => dismissedAt === undefined),
      facts: factsOf(told),
      cautions: lot.cautions
        .filter(({ dismissedAt }) => dismissedAt === undefined)
        .map(({ id, sentence }) => ({
          text: sentence,
          dismiss: {
            action: `${url}/cautions/${id}`,
            text: 'Understood, put it away',
            label: `Put away: ${sentence}`,
            once: freshForm('').once,
          },
        })),
      putAway: lot.cautions
        .filter(({ dismissedAt }) => dismissedAt !== undefined)
        .map(({ sentence, dismissedAt = '', dismissedBy = '' }) => ({
          text: `${sentence} Put away by ${dismissedBy} on ${dateInWords(dismissedAt.slice(0, 10))}.`,
        })),
      url,
      unit: unitInWords(material.unit),
      anyLeft,
      take: `${materialUrl(material.id)}/take?lot=${lot.id}`,
      reserve: isTheirs ? '' : `${materialUrl(material.id)}/promise?lot=${lot.id}`,
      receipt: isTheirs ? `${url}/receipt.pdf` : '',
      measured: formOf('measured'),
      mayLeave: anyLeft && (isTheirs || lot.origin === 'bought'),
      away: formOf('away'),
      awayWords: isTheirs
        ? { title: 'Handed back to the client', press: 'Hand it back' }
        : { title: 'Sent back to the supplier', press: 'Send it back' },
      remedies: isTheirs ? SHORT_CLOTH_REMEDIES.map((text) => ({ text })) : [],
      anyEntries: entries.length > 0,
      entries: entriesTable(entries, material, identity),
    },
  };
};

const factsOf = ({ lot, material, owner, identity }: LotTold): object[] => {
  const { locale } = identity;
  const isTheirs = lot.origin === 'custody';
  const cost = lot.costUnknown
    ? 'nobody knows'
    : lot.landed.isZero()
      ? 'nothing'
      : `${moneyInWords(lot.landed, locale)} for all of it`;
  return [
    owner ? { label: 'Belongs to', text: owner.name, href: `/clients/${owner.id}` } : { label: '', text: '' },
    { label: 'From', text: capitalised(originInWords(lot)) },
    { label: 'Came', text: dateInWords(lot.cameOn) },
    lot.purchaseId
      ? { label: 'Delivery', text: 'as it came', href: `/cloth-room/purchases/${lot.purchaseId}` }
      : { label: '', text: '' },
    { label: 'Width', text: lot.width.shown },
    { label: 'Dye lot', text: lot.dyeLot },
    { label: 'Flaws', text: lot.flaws },
    { label: 'Smell', text: lot.smell },
    { label: 'Shrink test', text: lot.shrinkTest },
    { label: 'Believed age', text: lot.believedAge },
    { label: 'Provenance', text: lot.provenance },
    { label: 'Cost', text: isTheirs ? '' : cost },
    {
      label: isTheirs ? 'Worth, by the client' : 'To replace one',
      text: lot.replacementUnitCost ? rateInWords(lot.replacementUnitCost, locale) : '',
    },
    {
      label: 'Charged at',
      text: lot.origin === 'stash' || lot.origin === 'offcut' ? CHARGED_WORDS[lot.chargeAt] : '',
      note: lot.chargeReason,
    },
    { label: 'Lies', text: material.place },
  ].filter(({ text }) => text !== '');
};
