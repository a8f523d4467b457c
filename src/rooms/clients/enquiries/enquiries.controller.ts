import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import type { FormModel } from '../../../printing/templates/page-model.js';
import { enquiryBook } from '../../../storage/books/counter/enquiry-book.js';
import { makingBook } from '../../../storage/books/making-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { freshForm, submit, versionSeen } from '../../../web/forms/form.js';
import { parseForm } from '../../../web/forms/parse.js';
import { typedOf } from '../../../web/forms/typed.js';
import { page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { BeginFields, EnquiryFields, StateFields, typedEnquiry } from './enquiry.form.js';
import { enquiriesPage, enquiryFormPage, enquiryPage, enquiryUrl } from './enquiry.page.js';
import { addEnquiry, becomeClient, beginCommission, correctEnquiry, moveEnquiry } from './keep-enquiry.js';

/** Who asked for something to be made, and who waits. */
@Controller('clients/enquiries')
export class EnquiriesController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Get()
  async all(@Query('after') after = ''): Promise<Reply> {
    const open = await enquiryBook.open(this.read);
    const over = await enquiryBook.list(this.read, 30, after, '', true);
    return page('clients/enquiries/list', enquiriesPage(open, over, await this.today(), after));
  }

  @Get('new')
  async form(): Promise<Reply> {
    const { template, words } = enquiryFormPage(freshForm('', { askedOn: await this.today() }));
    return page(template, words);
  }

  @Post()
  add(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const said = parseForm(EnquiryFields(await this.today()), typed);
        const { value, act } = await addEnquiry(this.unit, visit, said);
        return seeOther(enquiryUrl(value.id), act);
      },
      (form) => enquiryFormPage(form),
    );
  }

  @Get(':id')
  async one(@Param('id') id: string): Promise<Reply> {
    const { template, words } = await this.drawn(id, freshForm(''));
    return page(template, words);
  }

  @Get(':id/edit')
  async editForm(@Param('id') id: string): Promise<Reply> {
    const kept = await enquiryBook.one(this.read, id);
    const { template, words } = enquiryFormPage(freshForm('', typedEnquiry(kept), kept.version), kept);
    return page(template, words);
  }

  @Post(':id/edit')
  edit(@Param('id') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const said = parseForm(EnquiryFields(await this.today()), typed);
        const { act } = await correctEnquiry(this.unit, visit, id, said, versionSeen(typed));
        return seeOther(enquiryUrl(id), act);
      },
      async (form) => enquiryFormPage(form, await enquiryBook.one(this.read, id)),
      async () => typedEnquiry(await enquiryBook.one(this.read, id)),
    );
  }

  @Post(':id/state')
  async move(@Param('id') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    const { state, nextOn } = parseForm(StateFields, typed);
    const { act } = await moveEnquiry(this.unit, visit, id, { state, nextOn }, versionSeen(typed));
    return seeOther(enquiryUrl(id), act);
  }

  @Post(':id/client')
  async becomeClient(@Param('id') id: string, @Hand() visit: Visit): Promise<Reply> {
    const { act } = await becomeClient(this.unit, visit, id);
    return seeOther(enquiryUrl(id), act);
  }

  @Post(':id/commission')
  begin(@Param('id') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const { type } = parseForm(BeginFields, typed);
        const { value, act } = await beginCommission(this.unit, visit, id, type);
        return seeOther(`/commissions/${value.commissionId}`, act);
      },
      (form) => this.drawn(id, form),
    );
  }

  private async today() {
    return todayIn(this.clock, (await studioBook.the(this.read)).identity.zone);
  }

  private async drawn(id: string, form: FormModel) {
    const { identity } = await studioBook.the(this.read);
    const enquiry = await enquiryBook.one(this.read, id);
    return enquiryPage(form, enquiry, await makingBook.types(this.read), identity, await this.today());
  }
}
