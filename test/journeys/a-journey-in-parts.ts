import { writeFileSync } from 'node:fs';
import { expect } from 'vitest';
import type { PaperChoices } from '../../src/domain/house/paper-choices.js';
import type { Studio } from '../../src/domain/house/studio.js';
import { Money } from '../../src/domain/kernel/money.js';
import { clientBook } from '../../src/storage/books/client-book.js';
import { studioBook } from '../../src/storage/books/studio-book.js';
import { readUbl } from '../printing/exchange/xml/read-ubl.js';
import { readPdf } from '../printing/papers/read-pdf.js';
import { acceptedCommission, issueDraft, layReady } from '../rooms/papers/invoices/an-invoice.js';
import { bytesOf, furnishHouse, setRates } from '../rooms/quotes/a-commission.js';
import { openTestStudio, type TestStudio } from '../support/studio.js';

export const euro = (text: string): Money => Money.parse(text, 'EUR');
export const sum = (amounts: readonly string[]): Money => Money.sum(amounts.map(euro), 'EUR');

export const CREDITED = 'credit-note';

/** A three-piece whose papers are made one after the other, each held against its PDF and its data as it comes. */
export class Journey {
  private constructor(
    readonly studio: TestStudio,
    readonly at: Awaited<ReturnType<typeof acceptedCommission>>,
    private readonly locale: string,
  ) {}

  readonly papers: { id: string; kind: string; number: string; pdf: string; terms: any }[] = [];

  static async begin(said: {
    tax?: Partial<Studio['tax']>;
    papers?: Partial<PaperChoices>;
    language?: 'fr';
  }): Promise<Journey> {
    const studio = await openTestStudio();
    await furnishHouse(studio, { identity: { country: 'IE' }, ...(said.tax ? { tax: said.tax } : {}) });
    await setRates(studio, '30.00');
    await studio.unit.write(studio.visit, async (writing) => {
      const house = await studioBook.the(writing);
      // The example IBAN of the Dutch bank register: no account of anybody's.
      const papers = { ...house.papers, iban: 'NL91ABNA0417164300', ...said.papers };
      await studioBook.correct(writing, { ...house, papers });
      writing.says('Said how the house is paid', 'house');
    });
    const at = await acceptedCommission(studio);
    await studio.unit.write(studio.visit, async (writing) => {
      const client = await clientBook.one(writing, at.clientId);
      await clientBook.correct(writing, at.clientId, {
        ...client,
        country: 'IE',
        paperLanguage: said.language ?? '',
      });
      writing.says('Completed the client', `client/${at.clientId}`);
    });
    return new Journey(studio, at, said.language ?? 'en-IE');
  }

  async extra(garment: number, wording: string, kind: 'charged' | 'compliments', price: string) {
    const made = await this.studio.api('POST', `/api${this.at.url}/extras`, {
      garmentId: this.at.garments[garment],
      cause: 'client asked',
      kind,
      wording,
      price,
      operations: [{ line: `${wording} work`, minutes: 60 }],
    });
    expect(made.status, made.text).toBe(201);
    if (kind === 'compliments') return;
    const { number } = made.json();
    const agreed = await this.studio.api('POST', `/api${this.at.url}/extras/${number}/answer`, {
      act: 'agreed',
      byWhom: 'Corvin Haddlestone',
      how: 'in person',
      on: '2026-03-02',
    });
    expect(agreed.status, agreed.text).toBe(201);
  }

  invoice(asked: object) {
    return this.issue(() => layReady(this.studio, this.at.url, asked));
  }

  /** Gives one line of an issued paper back. */
  credit(paperId: string, line: string, note: string) {
    return this.issue(async () => {
      const laid = await this.studio.api('POST', `/api/papers/${paperId}/credit`, {});
      expect(laid.status, laid.text).toBe(201);
      const draft = laid.json();
      const url = `/api${this.at.url}/invoices/drafts/${draft.id}`;
      const put = await this.studio.api('PUT', url, { credits: 'lines', creditLines: [line], note });
      expect(put.status, put.text).toBe(200);
      return draft;
    });
  }

  private async issue(lay: () => Promise<any>) {
    const issued = await issueDraft(this.studio, this.at.url, await lay());
    const { document } = (await this.studio.api('GET', `/api/papers/${issued.id}`)).json();
    const bytes = await bytesOf(this.studio, `/papers/${issued.id}.pdf`);
    if (process.env.LOOK) writeFileSync(`${process.env.LOOK}/${this.locale}-${issued.number}.pdf`, bytes);
    const { pages } = await readPdf(bytes);
    // The reader gives the curved apostrophe of the face back as another letter.
    const pdf = pages.join('\n').replace(/\s+/g, ' ').replaceAll('ʼ', '’');
    const paper = { id: issued.id, kind: issued.kind, number: issued.number, pdf, terms: document.paper };
    this.papers.push(paper);
    await this.agrees(paper);
    return paper;
  }

  /** What is kept of a paper stands on its PDF and in its UBL, to the cent. */
  private async agrees({ id, pdf, terms, number }: Journey['papers'][number]) {
    const totals = terms['BG-22'];
    expect(pdf).toContain(number);
    for (const amount of [totals['BT-112'], totals['BT-115'], ...lineNets(terms)])
      expect(pdf, `${number} ${amount}`).toContain(this.written(amount));
    const ubl = readUbl((await this.studio.get(`/papers/${id}.ubl.xml`)).text) as any;
    expect([ubl['BT-1'], ubl['BT-3']]).toEqual([number, terms['BT-3']]);
    for (const term of ['BT-106', 'BT-109', 'BT-110', 'BT-112', 'BT-115'])
      expect(euro(ubl['BG-22'][term]), `${number} ${term}`).toEqual(euro(totals[term]));
    expect(ubl['BG-25'].map((line: any) => line['BT-131'])).toEqual(lineNets(terms));
    expect(ubl['BG-23'].map((group: any) => [group['BT-118'], group['BT-116'], group['BT-117']])).toEqual(
      terms['BG-23'].map((group: any) => [group['BT-118'], group['BT-116'], group['BT-117']]),
    );
  }

  /** An amount as papers of the client write it. */
  written(amount: string): string {
    const [whole = '', cents = ''] = amount.replace('-', '').split('.');
    const grouped = whole.replace(/\B(?=(\d{3})+$)/g, this.locale === 'fr' ? ' ' : ',');
    return `${amount.startsWith('-') ? '−' : ''}${grouped}${this.locale === 'fr' ? ',' : '.'}${cents}`;
  }

  async pay(amount: string, more: object = {}): Promise<string> {
    this.studio.clock.forward(1);
    const paid = await this.studio.api('POST', '/api/payments', {
      clientId: this.at.clientId,
      commissionId: this.at.id,
      on: '2026-03-02',
      amount,
      how: 'bank transfer',
      ...more,
    });
    expect(paid.status, paid.text).toBe(201);
    return paid.json().id;
  }

  async account() {
    return (await this.studio.api('GET', `/api/clients/${this.at.clientId}/account`)).json();
  }

  /** Σ of a total over all papers; credit notes come off. */
  all(term: 'BT-109' | 'BT-110' | 'BT-112'): Money {
    const of = (credit: boolean) =>
      sum(
        this.papers
          .filter(({ kind }) => (kind === CREDITED) === credit)
          .map(({ terms }) => terms['BG-22'][term]),
      );
    return of(false).minus(of(true));
  }

  async quoted() {
    const [quote] = (await this.studio.api('GET', `/api${this.at.url}/quotes`)).json().items;
    const { document } = (await this.studio.api('GET', `/api/papers/${quote.id}`)).json();
    return document.paper['BG-22'];
  }
}

export const lineNets = (terms: any): string[] => terms['BG-25'].map((line: any) => line['BT-131']);
