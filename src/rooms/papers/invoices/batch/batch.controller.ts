import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { z } from 'zod';
import { Invalid } from '../../../../domain/kernel/errors.js';
import { invoiceDraftBook } from '../../../../storage/books/papers/invoice-draft-book.js';
import { Clock } from '../../../../storage/clock.js';
import { ReadSide } from '../../../../storage/read-side.js';
import type { Visit } from '../../../../storage/session.js';
import { Describe } from '../../../../web/api/describe.js';
import { line, whole } from '../../../../web/fields/fields.js';
import { freshForm, submit } from '../../../../web/forms/form.js';
import { parse } from '../../../../web/forms/parse.js';
import { typedOf } from '../../../../web/forms/typed.js';
import { answer, page, type Reply, seeOther } from '../../../../web/reply.js';
import { Hand } from '../../../../web/visit.js';
import { type InvoiceOfDraft, invoiceOfDraft } from '../invoice-of-draft.js';
import {
  allTicked,
  BATCH,
  batchInJson,
  batchPage,
  isReady,
  looksOf,
  nameOfDraft,
  progressPage,
} from './batch.page.js';
import { type Batch, Batches } from './batches.js';

/** At most so many at once. */
const MOST = 500;

/** Every draft as it would go out now, in the order they were laid ready. */
const inHands = async (
  read: ReadSide,
  clock: Clock,
): Promise<{ told: InvoiceOfDraft[]; isMore: boolean }> => {
  const drafts = await invoiceDraftBook.all(read, MOST + 1);
  const told: InvoiceOfDraft[] = [];
  for (const draft of drafts.slice(0, MOST)) told.push(await invoiceOfDraft(read, clock, draft));
  return { told, isMore: drafts.length > MOST };
};

/** Begins a batch of the named drafts, in the order of the list. @throws Invalid when one is gone or none is named */
const begin = async (
  batches: Batches,
  visit: Visit,
  told: readonly InvoiceOfDraft[],
  chosen: ReadonlyMap<string, number>,
  confirmed: readonly string[],
): Promise<Batch> => {
  const drafts = told.filter(({ kept }) => chosen.has(kept.id));
  if (drafts.length < chosen.size)
    throw new Invalid('One of these drafts is no longer here. Look at the list once more.');
  if (drafts.length === 0) throw new Invalid('Tick at least one draft.');
  return batches.begin(
    visit,
    drafts.map((one) => ({
      id: one.kept.id,
      version: chosen.get(one.kept.id) ?? one.kept.version,
      kind: one.kept.choices.kind,
      commissionId: one.kept.commissionId ?? '',
      name: nameOfDraft(one),
    })),
    confirmed,
  );
};

/** Drafts that are issued together, with progress shown. */
@Controller('papers/batch')
export class BatchController {
  constructor(
    private readonly read: ReadSide,
    private readonly clock: Clock,
    private readonly batches: Batches,
  ) {}

  @Get()
  async ready(): Promise<Reply> {
    const { told, isMore } = await inHands(this.read, this.clock);
    const { template, words } = batchPage(freshForm('', allTicked(told)), told, this.batches.now(), isMore);
    return page(template, words);
  }

  @Post()
  issue(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    const chosen = new Map(
      Object.entries(typed).flatMap(([name, value]): [string, number][] =>
        name.startsWith('draft.') && /^\d{1,9}$/.test(value)
          ? [[name.slice('draft.'.length), Number(value)]]
          : [],
      ),
    );
    const confirmed = Object.entries(typed)
      .filter(([name, value]) => name.startsWith('confirm.') && value === 'yes')
      .map(([name]) => name.slice('confirm.'.length));
    return submit(
      typed,
      async () => {
        const before = this.batches.of(visit);
        if (before) return seeOther(`${BATCH}/${before.id}`);
        const { told } = await inHands(this.read, this.clock);
        const batch = await begin(this.batches, visit, told, chosen, confirmed);
        return seeOther(`${BATCH}/${batch.id}`);
      },
      async (form) => {
        const { told, isMore } = await inHands(this.read, this.clock);
        return batchPage(form, told, this.batches.now(), isMore);
      },
    );
  }

  @Get(':id')
  progress(@Param('id') id: string): Reply {
    return page('paper-room/batch/progress', progressPage(this.batches.one(id)));
  }
}

const BatchSent = z.strictObject({
  drafts: z
    .array(z.strictObject({ id: line('Name a draft.', 60), version: whole(1, 999_999_999) }))
    .min(1, 'Name at least one draft.')
    .max(MOST, `At most ${MOST} drafts at once.`),
  confirmed: z.array(z.string()).max(100, 'At most 100 of these.').default([]),
});

/** The same for programs. */
@Controller('api/papers/batch')
export class BatchApi {
  constructor(
    private readonly read: ReadSide,
    private readonly clock: Clock,
    private readonly batches: Batches,
  ) {}

  @Get()
  @Describe({ summary: 'The drafts that lie ready to be issued together, and those that do not' })
  async ready(): Promise<Reply> {
    const { told } = await inHands(this.read, this.clock);
    const inJson = (one: InvoiceOfDraft) => ({
      id: one.kept.id,
      version: one.kept.version,
      kind: one.kept.choices.kind,
      commissionId: one.kept.commissionId ?? null,
      client: one.client.name,
      findings: one.hand.findings.map(({ code, text, blocks }) => ({ code, text, blocks })),
    });
    return answer({
      ready: told.filter(isReady).map(inJson),
      notReady: told.filter((one) => !isReady(one)).map(inJson),
      looks: looksOf(told.filter(isReady)),
      running: this.batches.now()?.id ?? null,
    });
  }

  @Post()
  @Describe({
    summary: 'Issue these drafts in the order they were laid ready',
    description:
      'Answers at once; look at `/api/papers/batch/{id}` for how far it has come. At a failure those before it are issued, it and those behind it stay drafts.',
    examples: {
      two: {
        drafts: [{ id: '0190a3f2-0000-7000-8000-000000000001', version: 1 }],
        confirmed: ['supply-date'],
      },
    },
  })
  async issue(@Body({ schema: BatchSent }) body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const { drafts, confirmed } = parse(BatchSent, body);
    const { told } = await inHands(this.read, this.clock);
    const chosen = new Map(drafts.map(({ id, version }) => [id, version]));
    const batch = await begin(this.batches, visit, told, chosen, confirmed);
    return answer(batchInJson(batch), 202, { location: `/api/papers/batch/${batch.id}` });
  }

  @Get(':id')
  @Describe({ summary: 'How far a batch has come' })
  progress(@Param('id') id: string): Reply {
    return answer(batchInJson(this.batches.one(id)));
  }
}
