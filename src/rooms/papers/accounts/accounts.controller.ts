import { Controller, Get, Param, Query } from '@nestjs/common';
import { z } from 'zod';
import { Conflict } from '../../../domain/kernel/errors.js';
import { statementOf } from '../../../domain/papers/settlement/statement.js';
import { PdfPrinter } from '../../../printing/browser/pdf-printer.js';
import type { AccountLetter } from '../../../printing/papers/account-letter.js';
import { Stationery } from '../../../printing/papers/stationery.js';
import { optionalDate } from '../../../web/fields/fields.js';
import { parse } from '../../../web/forms/parse.js';
import { marked } from '../../../web/papers/house-on-paper.js';
import { file, page, type Reply } from '../../../web/reply.js';
import { accountPage, owedPage } from './account.page.js';
import { AccountDesk } from './account-desk.js';
import { overdueOf, reminderLetter, statementLetter } from './letters.js';

const Span = z.strictObject({ from: optionalDate(), to: optionalDate() });

/** What clients owe and are owed, and the letters about it. */
@Controller('papers')
export class AccountsController {
  constructor(
    private readonly desk: AccountDesk,
    private readonly stationery: Stationery,
    private readonly printer: PdfPrinter,
  ) {}

  @Get('owed')
  async owed(@Query('after') after = ''): Promise<Reply> {
    const { identity } = await this.desk.house();
    const [owed, held] = [await this.desk.owed(), await this.desk.held()];
    return page('paper-room/accounts/owed', owedPage(owed, held, after, identity));
  }

  @Get('accounts/:client')
  async account(@Param('client') id: string): Promise<Reply> {
    const { identity, today } = await this.desk.house();
    const { client, of } = await this.desk.client(id);
    const statement = statementOf(of.history, identity.currency);
    const deposits = (await this.desk.depositsOf([of])).all;
    return page(
      'paper-room/accounts/account',
      accountPage(client, of, statement, { deposits, today, identity }),
    );
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

  /** A letter that reminds of what is due. It is printed anew each time: it is not a paper, and nothing is kept of it. */
  @Get('accounts/:client/reminder.pdf')
  async reminder(@Param('client') id: string, @Query('which') which = '1'): Promise<Reply> {
    const { studio, today } = await this.desk.house();
    const { client, of } = await this.desk.client(id);
    const overdue = overdueOf(of.account, today);
    if (overdue.length === 0)
      throw new Conflict(
        'Nothing of this client is overdue, so there is nothing to remind of.',
        'not-overdue',
      );
    const letter = reminderLetter(studio, client, overdue, { which: which === '2' ? 2 : 1, today });
    return this.printed(letter, `Reminder ${client.code}.pdf`);
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
