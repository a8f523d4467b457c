import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import { z } from 'zod';
import { commissionBalance } from '../../../domain/papers/settlement/account.js';
import { statementOf } from '../../../domain/papers/settlement/statement.js';
import { type Reminder, reminderBook } from '../../../storage/books/payments/reminder-book.js';
import type { Visit } from '../../../storage/session.js';
import { Describe } from '../../../web/api/describe.js';
import { optionalDate } from '../../../web/fields/fields.js';
import { parse } from '../../../web/forms/parse.js';
import { answer, created, file, type Reply } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { AccountDesk } from './account-desk.js';
import { ReminderFields, Reminders } from './send-reminder.js';

const Span = z.strictObject({ from: optionalDate(), to: optionalDate() });

const inJson = ({ document: _, ...reminder }: Reminder) => reminder;

/** Accounts for programs. */
@Controller('api')
export class AccountsApi {
  constructor(
    private readonly desk: AccountDesk,
    private readonly reminders: Reminders,
  ) {}

  @Get('papers/owed')
  @Describe({ summary: 'Who owes what, by how long it has been due, and what is held for clients.' })
  async owed(): Promise<Reply> {
    const { rows, all, sum, today } = await this.desk.owed();
    const { deposits, credit } = await this.desk.held();
    return answer({
      on: today,
      items: rows,
      ages: all,
      owed: sum,
      held: { deposits, credit },
    });
  }

  @Get('clients/:id/account')
  @Describe({
    summary: 'A client’s account: balance, what is open on each paper, and the statement of a span of days.',
    description:
      'balance = Σ issued − Σ credited − Σ paid + Σ given back = owed − credit. `from` and `to` narrow the statement.',
  })
  async account(@Param('id') id: string, @Query() asked: unknown): Promise<Reply> {
    const { from, to } = parse(Span, asked);
    const { identity } = await this.desk.house();
    const { of } = await this.desk.client(id);
    const { account, history } = of;
    const { before, entries, after } = statementOf(history, identity.currency, { from, to });
    const commissions = new Set([
      ...account.papers.map(({ commissionId }) => commissionId),
      ...account.payments.map(({ commissionId }) => commissionId),
    ]);
    return answer({
      clientId: id,
      clientName: of.clientName,
      balance: account.balance,
      owed: account.owed,
      credit: account.credit,
      depositsHeld: (await this.desk.depositsOf([of])).all,
      commissions: [...commissions].map((commissionId) => ({
        commissionId: commissionId ?? null,
        balance: commissionBalance(account, commissionId, identity.currency),
      })),
      papers: account.papers.map(({ id: paperId, number, issued, due, total, credited, paid, open }) => ({
        id: paperId,
        kind: of.kinds.get(paperId) ?? '',
        number,
        issuedOn: issued,
        dueOn: due,
        total,
        credited,
        paid,
        open,
      })),
      statement: { before, entries, after },
    });
  }

  @Get('clients/:id/account/reminders')
  @Describe({ summary: 'The reminders that went out to a client, oldest first, each with its SHA-256.' })
  async reminded(@Param('id') id: string): Promise<Reply> {
    await this.desk.client(id);
    return answer({ items: (await reminderBook.of(this.desk.read, id)).map(inJson) });
  }

  @Post('clients/:id/account/reminders')
  @Describe({
    summary:
      'Prints a reminder of what is overdue, keeps its bytes, and writes down to whom and how it goes.',
    description: 'Refused with 409 while nothing of the client is overdue.',
    examples: { first: { which: '1', toWhom: 'Corvin Haddlestone', how: 'by mail' } },
  })
  async remind(@Param('id') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const { value } = await this.reminders.send(visit, id, parse(ReminderFields, body));
    const { reminder } = await reminderBook.pdf(this.desk.read, id, value);
    return created(`/api/clients/${id}/account/reminders/${value}.pdf`, inJson(reminder));
  }

  @Get('clients/:id/account/reminders/:reminder')
  @Describe({ summary: 'A reminder’s bytes as they went out.' })
  async reminderPdf(@Param('id') id: string, @Param('reminder') reminder: string): Promise<Reply> {
    const { bytes } = await reminderBook.pdf(this.desk.read, id, reminder.replace(/\.pdf$/, ''));
    return file(bytes, 'application/pdf', 'Reminder.pdf', true);
  }
}
