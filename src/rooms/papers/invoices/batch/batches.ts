import { randomUUID } from 'node:crypto';
import { Injectable, type OnApplicationShutdown } from '@nestjs/common';
import { Conflict, NotFound, Trouble } from '../../../../domain/kernel/errors.js';
import type { Visit } from '../../../../storage/session.js';
import { IssuingInvoices } from '../issuing/issuing-invoices.js';
import { type LookedAt, mustBeReady, seriesOf } from '../issuing/looked-at.js';

/** One draft of a batch, and what became of it. */
export type InBatch = LookedAt & {
  readonly commissionId: string;
  /** `Draft: final invoice to Corvin Haddlestone`. */
  readonly name: string;
  paper?: { readonly id: string; readonly number: string };
};

/** Drafts that are issued together. It lives as long as the server: what it did stands in the papers. */
export type Batch = {
  readonly id: string;
  readonly drafts: readonly InBatch[];
  state: 'running' | 'done' | 'stopped';
  /** Why it stopped, and at which draft. */
  stoppedBy?: { readonly draftId: string; readonly why: string };
};

/** So many are printed beside each other before others get a turn: one press waits for some seconds, never for the whole batch. */
const IN_ONE_TURN = 20;
const MOST_KEPT = 20;

/** Batches of invoices, one at a time, issued in the order of their list at the full rate of the printer. */
@Injectable()
export class Batches implements OnApplicationShutdown {
  private readonly kept = new Map<string, Batch>();
  private readonly byKey = new Map<string, string>();
  private running: Promise<void> | undefined;
  private closing = false;

  constructor(private readonly issuing: IssuingInvoices) {}

  /** Stops between two turns, so that the printer and the data outlive what is being written. */
  async onApplicationShutdown(): Promise<void> {
    this.closing = true;
    await this.running;
  }

  /** @throws NotFound also after the server was started anew */
  one(id: string): Batch {
    const batch = this.kept.get(id);
    if (!batch) throw new NotFound('batch; it may be from before the server was started');
    return batch;
  }

  /** The batch that this very press began. */
  of({ once }: Visit): Batch | undefined {
    return this.kept.get(this.byKey.get(once?.key ?? '') ?? '');
  }

  /** The one that runs now. */
  now(): Batch | undefined {
    return [...this.kept.values()].find(({ state }) => state === 'running');
  }

  /**
   * Checks every draft once and begins to issue them; a second press finds the batch of the first.
   *
   * @param confirmed codes of the findings that were looked at
   * @throws Invalid naming what is not ready; Conflict while another batch runs; nothing is issued then
   */
  async begin(
    visit: Visit,
    drafts: readonly Omit<InBatch, 'paper'>[],
    confirmed: readonly string[],
  ): Promise<Batch> {
    const key = visit.once?.key ?? '';
    const before = this.of(visit);
    if (before) return before;
    for (const { id } of drafts) mustBeReady((await this.issuing.inHand(id)).hand.findings, confirmed);
    if (this.closing || this.now())
      throw new Conflict('Another batch is being issued. Wait until it is done.', 'batch-runs');
    const batch: Batch = { id: randomUUID(), drafts: drafts.map((one) => ({ ...one })), state: 'running' };
    if (this.kept.size >= MOST_KEPT) this.kept.delete([...this.kept.keys()][0] ?? '');
    this.kept.set(batch.id, batch);
    if (key) this.byKey.set(key, batch.id);
    // Each paper is an act of its own; the key of the press belongs to none of them.
    this.running = this.issue({ who: visit.who }, batch, confirmed);
    return batch;
  }

  /** Ends when the batch that runs has ended. */
  async idle(): Promise<void> {
    await this.running;
  }

  private async issue(visit: Visit, batch: Batch, confirmed: readonly string[]): Promise<void> {
    const turns = inTurns(batch.drafts);
    try {
      for (const turn of turns) {
        if (this.closing) throw new Conflict('The program was shut down.', 'shut-down');
        await this.issuing.issueTogether(visit, turn, confirmed, (draft, paper) => {
          const own = turn.find(({ id }) => id === draft.id);
          if (own) own.paper = paper;
        });
      }
      batch.state = 'done';
    } catch (error) {
      const at = batch.drafts.find(({ paper }) => !paper);
      batch.state = 'stopped';
      batch.stoppedBy = { draftId: at?.id ?? '', why: error instanceof Trouble ? whyOf(error) : FAULT };
    }
  }
}

const FAULT = 'Something broke in the program while this one was issued.';

const whyOf = (trouble: Trouble): string =>
  trouble.fields.length > 0 ? trouble.fields.map(({ text }) => text).join(' ') : trouble.message;

/** Neighbours of one series, at most so many together. */
const inTurns = (drafts: readonly InBatch[]): InBatch[][] => {
  const turns: InBatch[][] = [];
  for (const draft of drafts) {
    const last = turns.at(-1);
    const fits =
      last && last.length < IN_ONE_TURN && seriesOf(last[0]?.kind ?? draft.kind) === seriesOf(draft.kind);
    if (fits) last.push(draft);
    else turns.push([draft]);
  }
  return turns;
};
