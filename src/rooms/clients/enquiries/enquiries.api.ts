import { Body, Controller, Get, Headers, Param, Post, Put, Query } from '@nestjs/common';
import { inTurn, refusalText } from '../../../domain/clients/enquiry.js';
import { enquiryBook } from '../../../storage/books/counter/enquiry-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { Describe } from '../../../web/api/describe.js';
import { presentAs } from '../../../web/api/present-as.js';
import { parse } from '../../../web/forms/parse.js';
import { etagOf, versionOfIfMatch } from '../../../web/forms/version.js';
import { answer, created, type Reply } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { BeginFields, EnquiryFields, StateFields } from './enquiry.form.js';
import { addEnquiry, becomeClient, beginCommission, correctEnquiry, moveEnquiry } from './keep-enquiry.js';

const ENQUIRY = {
  name: 'Sabeline Thrushwood',
  reachedAt: '555 0187',
  what: 'a riding coat',
  wantedBy: '2026-10-01',
};

/** Enquiries for programs. */
@Controller('api/clients/enquiries')
export class EnquiriesApi {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Get()
  @Describe({ summary: 'The waiting list in its turn; with `state=all` every enquiry, newest first' })
  async list(@Query('state') state = '', @Query('after') after = ''): Promise<Reply> {
    if (state === 'all') {
      const { items, next } = await enquiryBook.list(this.read, 30, after);
      return answer({ items, next: next ?? null });
    }
    return answer({ items: inTurn(await enquiryBook.open(this.read), await this.today()), next: null });
  }

  @Post()
  @Describe({ summary: 'Put somebody on the waiting list', examples: { coat: ENQUIRY } })
  async add(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const said = parse(EnquiryFields(await this.today()), body);
    const { value } = await addEnquiry(this.unit, visit, said);
    return created(`/api/clients/enquiries/${value.id}`, value);
  }

  @Get(':id')
  @Describe({ summary: 'One enquiry, with the words of a kind refusal' })
  async one(@Param('id') id: string): Promise<Reply> {
    const enquiry = await enquiryBook.one(this.read, id);
    const { maker, name } = (await studioBook.the(this.read)).identity;
    const refusal = refusalText(enquiry, { maker, studio: name });
    return answer({ ...enquiry, refusal }, 200, etagOf(enquiry.version));
  }

  @Put(':id')
  @Describe({ summary: 'Correct an enquiry', examples: { later: { ...ENQUIRY, wantedBy: '2026-12-01' } } })
  async correct(
    @Param('id') id: string,
    @Body() body: unknown,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const said = parse(EnquiryFields(await this.today()), body);
    await presentAs(
      () => this.one(id),
      () => correctEnquiry(this.unit, visit, id, said, versionOfIfMatch(match)),
    );
    return this.one(id);
  }

  @Post(':id/state')
  @Describe({
    summary: 'Say that they wait, are invited, were declined, or were not heard of again',
    examples: { invited: { state: 'invited', nextOn: '2026-03-09' }, declined: { state: 'declined' } },
  })
  async move(
    @Param('id') id: string,
    @Body({ schema: StateFields }) body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const { state, nextOn } = parse(StateFields, body);
    await moveEnquiry(this.unit, visit, id, { state, nextOn });
    return this.one(id);
  }

  @Post(':id/client')
  @Describe({ summary: 'Make a client of who asked' })
  async becomeClient(@Param('id') id: string, @Hand() visit: Visit): Promise<Reply> {
    await becomeClient(this.unit, visit, id);
    return this.one(id);
  }

  @Post(':id/commission')
  @Describe({
    summary: 'Begin the commission with its first garment',
    examples: { jacket: { type: 'lounge-jacket' } },
  })
  async begin(
    @Param('id') id: string,
    @Body({ schema: BeginFields }) body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const { value } = await beginCommission(this.unit, visit, id, parse(BeginFields, body).type);
    return created(`/api/commissions/${value.commissionId}`, value);
  }

  private async today() {
    return todayIn(this.clock, (await studioBook.the(this.read)).identity.zone);
  }
}
