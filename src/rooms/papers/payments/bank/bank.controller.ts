import { Body, Controller, Get, Param, Post, Query, Req } from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
import type { FormModel } from '../../../../printing/templates/page-model.js';
import { bankBook } from '../../../../storage/books/payments/bank-book.js';
import type { Visit } from '../../../../storage/session.js';
import { UnitOfWork } from '../../../../storage/unit-of-work.js';
import { submit } from '../../../../web/forms/form.js';
import { type Typed, typedOf } from '../../../../web/forms/typed.js';
import { page, type Reply, seeOther } from '../../../../web/reply.js';
import { packed, unpacked } from '../../../../web/tables/carried.js';
import { readUpload } from '../../../../web/tables/read-upload.js';
import { Hand } from '../../../../web/visit.js';
import { PaymentDesk } from '../payment-desk.js';
import { BANK_LIST, choicesIn, statementIn } from './bank.form.js';
import {
  bankUrl,
  columnsForm,
  columnsPage,
  linesForm,
  statementPage,
  uploadForm,
  uploadPage,
} from './bank.page.js';
import { bringStatement, readStatement, statementTable } from './bring-statement.js';
import { matchesFor, matchingOf } from './match-lines.js';
import { takeLines } from './take-lines.js';

/** The packed file, whole: it is longer than anything a person types. */
const carriedIn = (body: unknown): string => {
  const { carried } = (body ?? {}) as Record<string, unknown>;
  return typeof carried === 'string' ? carried : '';
};

/** Bank statements: brought in, looked at line by line, and taken as payments only by hand. */
@Controller('papers/payments/bank')
export class BankController {
  constructor(
    private readonly desk: PaymentDesk,
    private readonly unit: UnitOfWork,
  ) {}

  @Get()
  async upload(): Promise<Reply> {
    const { template, words } = await this.uploading(uploadForm());
    return page(template, words);
  }

  @Post('columns')
  columns(@Req() request: FastifyRequest): Promise<Reply> {
    return submit(
      {},
      async () => {
        const { text, headed } = await readUpload(request, BANK_LIST);
        const table = statementTable(text, headed);
        const { template, words } = columnsPage(table, packed(text), columnsForm(table, headed), undefined);
        return page(template, words);
      },
      (form) => this.uploading({ ...form, values: uploadForm().values }),
    );
  }

  @Post('bring')
  bring(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    const carried = carriedIn(body);
    return submit(
      typed,
      async () => {
        const { value, act } = await bringStatement(this.unit, visit, unpacked(carried), statementIn(typed));
        return seeOther(`${bankUrl}/${value.id}`, act);
      },
      (form) => this.asked(carried, typed, form),
    );
  }

  @Get(':id')
  async statement(@Param('id') id: string, @Query('after') after = ''): Promise<Reply> {
    const { template, words } = await this.lines(id, after);
    return page(template, words);
  }

  @Post(':id')
  take(
    @Param('id') id: string,
    @Query('after') after = '',
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const { act } = await takeLines(this.unit, visit, choicesIn(typed));
        return seeOther(`${bankUrl}/${id}${after ? `?after=${after}` : ''}`, act);
      },
      (form) => this.lines(id, after, form),
    );
  }

  private async uploading(form: FormModel) {
    const { identity } = await this.desk.house();
    return uploadPage(form, await bankBook.imports(this.desk.read), identity);
  }

  private async asked(carried: string, typed: Typed, form: FormModel) {
    const text = unpacked(carried);
    const { carried: _, ...values } = form.values;
    const table = statementTable(text, typed.headed === 'yes');
    // What the lines are in trouble with is shown where the columns are settled.
    const read = await readStatement(this.desk.read, text, statementIn(typed)).catch(() => undefined);
    return columnsPage(table, carried, { ...form, values }, read);
  }

  private async lines(id: string, after: string, again?: FormModel) {
    const { identity } = await this.desk.house();
    const { read } = this.desk;
    const statement = await bankBook.import(read, id);
    const found = await bankBook.lines(read, id, { after });
    const matching = await matchingOf(read);
    const matches = matchesFor(found.items, matching);
    const counts = await bankBook.counts(read, id);
    const form = again ?? linesForm(found, matches);
    return statementPage(form, { statement, counts, page: found, matches, matching, after, identity });
  }
}
