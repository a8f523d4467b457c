import type { FormModel } from '../../../../printing/templates/page-model.js';
import type { PageWords } from '../../../../web/reply.js';
import { moneyInWords } from '../../../../web/words/amounts.js';
import { capitalised, countInWords } from '../../../../web/words/counts.js';
import type { InvoiceOfDraft } from '../invoice-of-draft.js';
import { draftName, invoiceDraftUrl, paperUrl } from '../invoice-words.js';
import type { Batch } from './batches.js';

export const BATCH = '/papers/batch';
const ASKED = ' Is that right?';

const crumbs = [{ text: 'Papers', href: '/papers' }];

/** A draft in words: `Draft: final invoice to Corvin Haddlestone`. */
export const nameOfDraft = ({ kept, client }: InvoiceOfDraft): string =>
  `${draftName(kept.choices.kind)} to ${client.name}`;

const urlOf = ({ kept }: InvoiceOfDraft): string => invoiceDraftUrl(kept.commissionId ?? '', kept.id);

export const isReady = ({ hand }: InvoiceOfDraft): boolean => hand.findings.every(({ blocks }) => !blocks);

/** What wants a look among drafts, each once. */
export const looksOf = (told: readonly InvoiceOfDraft[]) => {
  const found = new Map<string, { text: string; count: number }>();
  for (const { hand } of told)
    for (const code of new Set(hand.findings.filter(({ blocks }) => !blocks).map((one) => one.code))) {
      const text = hand.findings.find((one) => one.code === code)?.text ?? '';
      found.set(code, { text: found.get(code)?.text ?? text, count: (found.get(code)?.count ?? 0) + 1 });
    }
  return [...found].map(([code, one]) => ({ code, ...one }));
};

/** The values with which every ready draft stands ticked. */
export const allTicked = (told: readonly InvoiceOfDraft[]): Record<string, string> =>
  Object.fromEntries(told.filter(isReady).map(({ kept }) => [`draft.${kept.id}`, String(kept.version)]));

/** What lies ready to be issued, and what does not. */
export const batchPage = (
  form: FormModel,
  told: readonly InvoiceOfDraft[],
  running: Batch | undefined,
  isMore: boolean,
): { template: string; words: PageWords } => {
  const ready = told.filter(isReady);
  const others = told.filter((one) => !isReady(one));
  return {
    template: 'paper-room/batch/ready',
    words: {
      title: 'Issue what is ready',
      room: 'papers',
      crumbs,
      form: { ...form, action: BATCH },
      lead:
        ready.length === 0
          ? 'No draft is ready to be issued.'
          : `${capitalised(countInWords(ready.length, 'draft'))} ready. They go out in this order, each with the number that comes next.`,
      anyReady: ready.length > 0,
      ready: ready.map((one) => ({
        tick: `draft.${one.kept.id}`,
        version: String(one.kept.version),
        label: `${nameOfDraft(one)}, ${moneyInWords(one.hand.paper['BG-22']['BT-115'], one.studio.identity.locale)}`,
        href: urlOf(one),
        place: one.commission?.number ?? 'open it',
      })),
      looks: looksOf(ready).map(({ code, text, count }) => ({
        confirm: `confirm.${code}`,
        code,
        count: countInWords(count, 'draft'),
        yes: text.endsWith(ASKED) ? `${text.slice(0, -ASKED.length)} That is right.` : `${text} Looked at.`,
      })),
      anyLooks: looksOf(ready).length > 0,
      anyOthers: others.length > 0,
      others: {
        caption: 'Not ready',
        columns: [{ text: 'Draft' }, { text: 'What is missing' }],
        rows: others.map((one) => ({
          cells: [
            { text: nameOfDraft(one), href: `${urlOf(one)}/check`, note: one.commission?.number ?? '' },
            { text: one.hand.findings.find(({ blocks }) => blocks)?.text ?? '' },
          ],
        })),
      },
      more: isMore ? 'There are more drafts than are shown; issue these first.' : '',
      running: running ? `${BATCH}/${running.id}` : '',
      leave: { text: 'Back to the papers', href: '/papers' },
    },
  };
};

/** How far a batch has come. */
export const progressPage = (batch: Batch): PageWords => {
  const issued = batch.drafts.filter(({ paper }) => paper);
  const left = batch.drafts.filter(({ paper }) => !paper);
  const at = batch.drafts.find(({ id }) => id === batch.stoppedBy?.draftId);
  const all = batch.drafts.length;
  return {
    title: batch.state === 'running' ? 'Issuing' : batch.state === 'done' ? 'All issued' : 'Stopped',
    room: 'papers',
    crumbs: [...crumbs, { text: 'Issue what is ready', href: BATCH }],
    here: `${BATCH}/${batch.id}`,
    runs: batch.state === 'running',
    label: 'Issuing papers',
    text: `${issued.length} of ${all}`,
    done: issued.length,
    all,
    said:
      batch.state === 'stopped'
        ? `It stopped at ${at?.name ?? 'a draft'}: ${batch.stoppedBy?.why ?? ''} ${countInWords(issued.length, 'paper')} issued before it; it and what comes after it are still drafts.`
        : batch.state === 'done'
          ? `${countInWords(issued.length, 'paper')} issued.`
          : 'It goes on by itself; you may leave this page.',
    anyIssued: issued.length > 0,
    issued: {
      caption: 'Issued',
      columns: [{ text: 'Number' }, { text: 'What it was' }],
      rows: issued.map(({ paper, name }) => ({
        cells: [{ text: paper?.number ?? '', href: paperUrl(paper?.id ?? '') }, { text: name }],
      })),
    },
    anyLeft: batch.state === 'stopped' && left.length > 0,
    left: {
      caption: 'Still drafts',
      columns: [{ text: 'Draft' }],
      rows: left.map(({ id, commissionId, name }) => ({
        cells: [{ text: name, href: `${invoiceDraftUrl(commissionId, id)}/check` }],
      })),
    },
    again: BATCH,
  };
};

/** A batch as programs read it. */
export const batchInJson = ({ id, state, drafts, stoppedBy }: Batch): object => ({
  id,
  state,
  of: drafts.length,
  issued: drafts.flatMap(({ id: draftId, paper }) => (paper ? [{ draftId, ...paper }] : [])),
  left: drafts.flatMap((one) => (one.paper ? [] : [one.id])),
  stoppedBy: stoppedBy ?? null,
});
