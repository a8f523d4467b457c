import type { Garment } from '../../../../domain/commissions/garment.js';
import { MAKE_WORDS } from '../../../../domain/making/mode.js';
import { type Operation, plannedMinutes } from '../../../../domain/making/operation.js';
import type { FormModel, Link } from '../../../../printing/templates/page-model.js';
import type { PageWords } from '../../../../web/reply.js';
import { minutesInWords } from '../../../../web/words/durations.js';
import { garmentUrl } from '../../commission.page.js';
import { kindOf } from '../add-line.js';
import type { Proposal } from './copy-plan.js';

/** Everything proposed is ticked to begin with. */
export const proposalTyped = ({ more, out }: Proposal): Record<string, string> =>
  Object.fromEntries([
    ...more.map(({ name }) => [`more.${kindOf(name)}`, 'yes']),
    ...out.map(({ id }) => [`out.${id}`, 'yes']),
  ]);

const timeOf = (one: Operation): string =>
  one.needsMinutes ? 'no time known' : minutesInWords(plannedMinutes(one));

/** What the make would change in the plan, to be ticked. */
export const proposalPage = (
  form: FormModel,
  garment: Garment,
  { more, out }: Proposal,
  crumbs: Link[],
): { template: string; words: PageWords } => {
  const url = garmentUrl(garment.commissionId, garment.id);
  return {
    template: 'commissions/plan/proposal',
    words: {
      title: `Operations for ${MAKE_WORDS[garment.make]}`,
      room: 'commissions',
      crumbs: [...crumbs, { text: garment.name, href: url }],
      form: { ...form, action: `${url}/plan/proposal` },
      any: more.length + out.length > 0,
      more: more.map((one) => ({ name: `more.${kindOf(one.name)}`, label: `${one.name}, ${timeOf(one)}` })),
      out: out.map((one) => ({ name: `out.${one.id}`, label: `${one.name}, ${timeOf(one)}` })),
      leave: { text: 'Leave the plan as it is', href: `${url}#plan` },
    },
  };
};
