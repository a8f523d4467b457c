import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import { z } from 'zod';
import { Invalid } from '../../../../domain/kernel/errors.js';
import { SURENESS } from '../../../../domain/papers/bank/propose-matches.js';
import { paymentBook } from '../../../../storage/books/papers/payment-book.js';
import { bankBook, type LineStanding } from '../../../../storage/books/payments/bank-book.js';
import type { Visit } from '../../../../storage/session.js';
import { UnitOfWork } from '../../../../storage/unit-of-work.js';
import { Describe } from '../../../../web/api/describe.js';
import { pageSize } from '../../../../web/api/page-size.js';
import { line, yesNo } from '../../../../web/fields/fields.js';
import { parse } from '../../../../web/forms/parse.js';
import { answer, created, type Reply } from '../../../../web/reply.js';
import { Hand } from '../../../../web/visit.js';
import { PaymentDesk } from '../payment-desk.js';
import { BANK_LIST, StatementFields } from './bank.form.js';
import { bringStatement, readStatement } from './bring-statement.js';
import { matchesFor, matchingOf } from './match-lines.js';
import { setLineAside, takeLine } from './take-lines.js';

const SentStatement = StatementFields.extend({
  text: z.string('Send the statement as text.').min(1, 'Send the statement as text.'),
  /** Tells what the lines come to, and keeps nothing. */
  preview: yesNo(),
});

const SentTaking = z.strictObject({
  clientId: line('Whose payment is it?', 60),
  /** Papers to settle first, in this order; then those due first. */
  papers: z.array(z.string().max(60)).max(200).default([]),
});

const STANDINGS: readonly string[] = ['open', 'aside', 'taken'];

/** Bank statements for programs. */
@Controller('api/payments/bank')
export class BankApi {
  constructor(
    private readonly desk: PaymentDesk,
    private readonly unit: UnitOfWork,
  ) {}

  @Get()
  @Describe({ summary: 'The bank statements that were brought in, newest first.' })
  async all(): Promise<Reply> {
    const items = await bankBook.imports(this.desk.read, 100);
    return answer({ items: items.map(({ mapping, ...one }) => ({ ...one, mapping: JSON.parse(mapping) })) });
  }

  @Post()
  @Describe({
    summary: 'Brings in a bank statement as CSV text. It books nothing.',
    description:
      'Say what each column holds, in order, `""` for none. `dateOrder` and `decimalSign` are asked for only where the file can be read both ways. Lines that are here already are counted as known and not brought in again.',
    examples: {
      signed: {
        text: 'Date,Amount,Text\n2026-03-02,120.00,RF18 5390 0754 7034',
        headed: true,
        columns: ['date', 'amount', 'words'],
      },
    },
  })
  async bring(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const { text, preview, ...words } = parse(SentStatement, body);
    if (Buffer.byteLength(text) > BANK_LIST.bytes)
      throw Invalid.field('text', 'A statement of at most 6 MB is brought in at once.');
    if (preview) return answer(await readStatement(this.desk.read, text, words));
    const { value } = await bringStatement(this.unit, visit, text, words);
    const { mapping: _, ...brought } = value;
    return created(`/api/payments/bank/${value.id}`, brought);
  }

  @Get(':id')
  @Describe({ summary: 'One statement, with how many of its lines stand how.' })
  async one(@Param('id') id: string): Promise<Reply> {
    const { mapping, ...statement } = await bankBook.import(this.desk.read, id);
    const counts = await bankBook.counts(this.desk.read, id);
    return answer({ ...statement, mapping: JSON.parse(mapping), counts });
  }

  @Get(':id/lines')
  @Describe({
    summary:
      'A statement’s lines with what each may be paying: why, and how sure. Paged by key; `standing` narrows.',
  })
  async lines(
    @Param('id') id: string,
    @Query('after') after = '',
    @Query('limit') limit = '25',
    @Query('standing') asked = '',
  ): Promise<Reply> {
    const { read } = this.desk;
    await bankBook.import(read, id);
    const standing = STANDINGS.includes(asked) ? (asked as LineStanding) : undefined;
    const most = pageSize(limit, 25);
    const { items, next } = await bankBook.lines(read, id, { after, limit: most, standing });
    const matches = matchesFor(items, await matchingOf(read));
    return answer({
      items: items.map(({ paymentId, ...one }, place) => ({
        ...one,
        paymentId: paymentId ?? null,
        matches: (matches[place] ?? []).map(({ sureness, ...match }) => ({
          ...match,
          sure: SURENESS[sureness],
        })),
      })),
      next: next ?? null,
    });
  }

  @Post('lines/:line/payment')
  @Describe({
    summary: 'Takes a line as a payment of a client.',
    examples: { match: { clientId: '0190…', papers: ['0190…'] } },
  })
  async take(@Param('line') lineId: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const { clientId, papers } = parse(SentTaking, body);
    const { value } = await this.unit.write(visit, async (writing) => {
      const id = await takeLine(writing, lineId, { does: 'take', clientId, papers });
      writing.says('Took a payment from a bank statement', `payment/${id}`);
      return id;
    });
    const { id, amount, on } = await paymentBook.one(this.desk.read, value);
    return created(`/api/payments/${id}`, { id, clientId, amount, on });
  }

  @Post('lines/:line/aside')
  @Describe({ summary: 'Sets a line aside, or takes it up again.', examples: { aside: { aside: true } } })
  async aside(@Param('line') lineId: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const { aside } = parse(z.strictObject({ aside: z.boolean() }), body);
    await setLineAside(this.unit, visit, lineId, aside);
    return answer({ id: lineId, standing: aside ? 'aside' : 'open' });
  }
}
