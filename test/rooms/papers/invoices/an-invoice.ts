import { randomUUID } from 'node:crypto';
import { expect } from 'vitest';
import type { TestStudio } from '../../../support/studio.js';
import { aCommission, beginQuote, issueQuote } from '../../quotes/a-commission.js';

/** A commission whose quote was accepted as printed; answers its address and the garments' keys. */
export const acceptedCommission = async (
  studio: TestStudio,
  garments?: Parameters<typeof aCommission>[1],
  said?: Parameters<typeof aCommission>[2],
): Promise<{ id: string; url: string; clientId: string; garments: string[] }> => {
  const commission = await aCommission(studio, garments, said);
  const paper = await issueQuote(studio, await beginQuote(studio, commission.url));
  const quoteId = paper.split('/').at(-1)!;
  const answer = await studio.api('POST', `/api${commission.url}/quotes/${quoteId}/answer`, {
    answer: 'accepted',
    answeredOn: '2026-03-02',
    byWhom: 'Corvin Haddlestone',
    how: 'in person',
  });
  expect(answer.status, answer.text).toBe(201);
  return commission;
};

/** Lays an invoice ready; answers the draft as JSON. */
export const layReady = async (studio: TestStudio, commission: string, asked: object): Promise<any> => {
  studio.clock.forward(1);
  const answer = await studio.api('POST', `/api${commission}/invoices/drafts`, asked);
  expect(answer.status, answer.text).toBe(201);
  return answer.json();
};

/** Issues a draft, saying yes to whatever wants a look; answers the issued paper as JSON. */
export const issueDraft = async (studio: TestStudio, commission: string, draft: any): Promise<any> => {
  studio.clock.forward(1);
  const url = `/api${commission}/invoices/drafts/${draft.id}`;
  const { findings } = (await studio.api('GET', url)).json();
  const confirmed = findings.filter((one: any) => !one.blocks).map((one: any) => one.code);
  const answer = await studio.api('POST', `${url}/issue`, { confirmed });
  expect(answer.status, answer.text).toBe(201);
  return answer.json();
};

/** Lays ready and issues. */
export const invoiced = async (studio: TestStudio, commission: string, asked: object): Promise<any> =>
  issueDraft(studio, commission, await layReady(studio, commission, asked));

/** A fresh once-only key and what else a form carries. */
export const once = (fields: Record<string, string> = {}): Record<string, string> => ({
  once: randomUUID(),
  ...fields,
});
