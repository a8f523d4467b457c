import type { Client } from '../../../domain/clients/client.js';
import type { Commission } from '../../../domain/commissions/commission.js';
import type { PlannedGarment } from '../../../domain/commissions/garment.js';
import type { Studio } from '../../../domain/house/studio.js';
import type { Share } from '../../../domain/kernel/share.js';
import type { GarmentType } from '../../../domain/making/garment-type.js';
import type { KnownOperation } from '../../../domain/making/known-operation.js';
import { MAKE_WORDS, MODE_WORDS, MODES, STAGE_WORDS, STAGES } from '../../../domain/making/mode.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import { freshForm } from '../../../web/forms/form.js';
import type { PageWords } from '../../../web/reply.js';
import { moneyForField } from '../../../web/words/amounts.js';
import { capitalised } from '../../../web/words/counts.js';
import { dateInWords } from '../../../web/words/dates.js';
import { commissionCrumbs, garmentUrl } from '../commission.page.js';
import { expensesTable, materialsTable } from '../materials/materials.page.js';
import type { LineRead } from '../plan/add-line.js';
import { type ExtraNumbers, planForm, planWords } from '../plan/plan.page.js';
import type { SumPanel } from '../sum/sum.page.js';

/** Everything a job sheet is drawn from. */
export type JobTold = {
  readonly studio: Studio;
  readonly commission: Commission;
  readonly planned: PlannedGarment;
  readonly type: GarmentType;
  readonly people: ReadonlyMap<string, Client>;
  readonly known: readonly KnownOperation[];
  readonly remarks: readonly string[];
  readonly sum: SumPanel;
  /** Which lines of the plan an extra put there. */
  readonly extraNumbers: ExtraNumbers;
};

/** How the page is looked at: what has the focus, inside which frame, and the form that came back. */
export type JobLook = {
  readonly at?: string;
  readonly isInFrame?: boolean;
  readonly plan?: (fresh: FormModel) => FormModel;
  readonly add?: { readonly form: FormModel; readonly read: LineRead };
  readonly material?: FormModel;
  readonly expense?: FormModel;
  readonly price?: FormModel;
};

/** A new material: handling is ticked where the commission charges any. */
export const newMaterial = (handling: Share): Record<string, string> => ({
  waste: '0',
  wasteOf: 'net',
  handling: handling.isZero() ? '' : 'yes',
});

const options = <T extends string>(values: readonly T[], words: Readonly<Record<T, string>>) =>
  values.map((value) => ({ value, text: capitalised(words[value]) }));

/** The job sheet of one garment, read downward: who and what, the make, the plan, materials, expenses; the sum beside. */
export const jobSheetPage = (told: JobTold, look: JobLook): PageWords => {
  const { commission, planned, studio, sum } = told;
  const { garment, plan, materials, expenses } = planned;
  const { identity } = studio;
  const url = garmentUrl(commission.id, garment.id);
  const fresh = planForm(`${url}/plan`, plan);
  const at = look.at ?? '';
  return {
    title: `${capitalised(garment.name)}, ${commission.number}`,
    room: 'commissions',
    crumbs: commissionCrumbs(commission),
    url,
    bench: `/bench/garments/${garment.id}`,
    outwork: `/bench/outwork/new?garment=${garment.id}`,
    place: String(garment.place),
    name: capitalised(garment.name),
    inFrame: look.isInFrame === true,
    facts: factsOf(told),
    remarks: [...told.remarks],
    plan: planWords(plan, at, told.extraNumbers),
    planForm: look.plan ? look.plan(fresh) : fresh,
    addForm: { ...(look.add?.form ?? freshForm('')), action: `${url}/plan/add` },
    addFocus: at === 'add',
    answers: answersOf(look.add?.read),
    knownNames: namesOf(told),
    menu: told.type.isMenu,
    stages: options(STAGES, STAGE_WORDS),
    modes: options(MODES, MODE_WORDS),
    materials: materialsTable(materials, url, identity),
    anyMaterials: materials.length > 0,
    materialForm: {
      ...(look.material ?? freshForm('', newMaterial(commission.pricing.handlingShare))),
      action: `${url}/materials`,
    },
    materialFocus: at === 'material',
    expenses: expensesTable(expenses, url, identity),
    anyExpenses: expenses.length > 0,
    expenseForm: { ...(look.expense ?? freshForm('')), action: `${url}/expenses` },
    expenseFocus: at === 'expense',
    currency: identity.currency,
    priceForm: {
      ...(look.price ??
        freshForm(
          '',
          { ownPrice: garment.ownPrice ? moneyForField(garment.ownPrice, identity.locale) : '' },
          garment.version,
        )),
      action: `${url}/price`,
    },
    sum,
  };
};

const factsOf = ({ commission, planned, people, type }: JobTold): object[] => {
  const { garment } = planned;
  const nameOf = (id: string): string => people.get(id)?.name ?? '';
  return [
    { label: 'Client', text: nameOf(commission.clientId), href: `/clients/${commission.clientId}` },
    { label: 'Wearer', text: nameOf(garment.wearerId), href: `/clients/${garment.wearerId}` },
    { label: 'Type', text: capitalised(type.name) },
    { label: 'Make', text: capitalised(MAKE_WORDS[garment.make]) },
    {
      label: 'Due',
      text: garment.dueOn
        ? dateInWords(garment.dueOn)
        : commission.wantedBy
          ? dateInWords(commission.wantedBy)
          : 'no day named',
    },
    ...(garment.notes ? [{ label: 'Notes', text: garment.notes }] : []),
  ];
};

const namesOf = ({ known }: JobTold): string[] => [...new Set(known.map(({ name }) => name))];

/** What the line typed may mean: choices as buttons, or what is asked of something new. */
const answersOf = (read: LineRead | undefined): Record<string, unknown> => ({
  choices: read?.kind === 'ask' ? read.choices.map(({ words, typed }) => ({ words, typed })) : [],
  isNew: read?.kind === 'new',
  per: read?.kind === 'new' && read.driver !== 'once' ? 'Minutes for one' : 'Minutes',
});
