import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import { z } from 'zod';
import { statementOf } from '../../../domain/papers/settlement/statement.js';
import { PdfPrinter } from '../../../printing/browser/pdf-printer.js';
import type { AccountLetter } from '../../../printing/papers/account-letter.js';
import { Stationery } from '../../../printing/papers/stationery.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import { reminderBook } from '../../../storage/books/payments/reminder-book.js';
import type { Visit } from '../../../storage/session.js';
import { optionalDate } from '../../../web/fields/fields.js';
import { submit } from '../../../web/forms/form.js';
import { parse, parseForm } from '../../../web/forms/parse.js';
import { typedOf } from '../../../web/forms/typed.js';
import { marked } from '../../../web/papers/house-on-paper.js';
import { file, page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { accountUrl } from '../payments/payment.page.js';
import { accountPage, owedPage } from './account.page.js';
import { AccountDesk } from './account-desk.js';
import { statementLetter } from './letters.js';
import { ReminderFields, Reminders } from './send-reminder.js';

const Span = z.strictObject({ from: optionalDate(), to: optionalDate() });

/** What clients owe and are owed, and the letters about it. */
@Controller('papers')
export class AccountsController {
  constructor(
    private readonly desk: AccountDesk,
    private readonly stationery: Stationery,
    private readonly printer: PdfPrinter,
    private readonly reminders: Reminders,
  ) {}

  @Get('owed')
  async owed(@Query('after') after = ''): Promise<Reply> {
    const { identity } = await this.desk.house();
    const [owed, held] = [await this.desk.owed(), await this.desk.held()];
    return page('paper-room/accounts/owed', owedPage(owed, held, after, identity));
  }

  @Get('accounts/:client')
  async account(@Param('client') id: string): Promise<Reply> {
    const { template, words } = await this.accountOf(id);
    return page(template, words);
  }

  private async accountOf(id: string, form?: FormModel) {
    const { identity, today } = await this.desk.house();
    const { client, of } = await this.desk.client(id);
    const statement = statementOf(of.history, identity.currency);
    const deposits = (await this.desk.depositsOf([of])).all;
    const reminders = await reminderBook.of(this.desk.read, id);
    const told = { deposits, today, identity, reminders };
    return {
      template: 'paper-room/accounts/account',
      words: accountPage(client, of, statement, told, form),
    };
  }

  @Get('accounts/:client/statement.pdf')
  async statement(@Param('client') id: string, @Query() asked: unknown): Promise<Reply> {
    const { from, to } = parse(Span, asked);
    const { studio, identity, today } = await this.desk.house();
    const { client, of } = await this.desk.client(id);
    const span = { from, to: to ?? today };
    const statement = statementOf(of.history, identity.currency, span);
    const letter = statementLetter(studio, client, statement, { ...span, today });
    return this.printed(letter, `Statement ${client.code}.pdf`);
  }

  /** A letter that reminds of what is due, to look at: nothing is kept of it until it goes out. */
  @Get('accounts/:client/reminder.pdf')
  async reminder(@Param('client') id: string, @Query('which') which = '1'): Promise<Reply> {
    const { client } = await this.desk.client(id);
    const bytes = await this.reminders.preview(id, which === '2' ? 2 : 1);
    return file(bytes, 'application/pdf', `Reminder ${client.code}.pdf`, true);
  }

  @Post('accounts/:client/reminders')
  async remind(@Param('client') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const { act } = await this.reminders.send(visit, id, parseForm(ReminderFields, typed));
        return seeOther(accountUrl(id), act);
      },
      async (form) => this.accountOf(id, form),
    );
  }

  /** A reminder's bytes as they went out. */
  @Get('accounts/:client/reminders/:reminder')
  async sentReminder(@Param('client') id: string, @Param('reminder') reminder: string): Promise<Reply> {
    const { bytes } = await reminderBook.pdf(this.desk.read, id, reminder.replace(/\.pdf$/, ''));
    return file(bytes, 'application/pdf', 'Reminder.pdf', true);
  }

  private async printed(letter: AccountLetter, name: string): Promise<Reply> {
    const { studio } = await this.desk.house();
    const { html, sheet } = this.stationery.accountLetter(
      marked(letter, await this.desk.mark()),
      studio.sheet,
    );
    return file(await this.printer.print(html, sheet), 'application/pdf', name, true);
  }
}
