import { Body, Controller, Get, Headers, Param, Post, Put, Query } from '@nestjs/common';
import { outworkBook } from '../../../storage/books/outwork/outwork-book.js';
import { outworkerBook } from '../../../storage/books/outwork/outworker-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { Clock } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { Describe } from '../../../web/api/describe.js';
import { pageSize } from '../../../web/api/page-size.js';
import { presentAs } from '../../../web/api/present-as.js';
import { sentKit } from '../../../web/fields/kits.js';
import { parse } from '../../../web/forms/parse.js';
import { etagOf, versionOfIfMatch } from '../../../web/forms/version.js';
import { answer, created, type Reply } from '../../../web/reply.js';
import { Hand, type SignedIn } from '../../../web/visit.js';
import {
  addOutworker,
  bringBackOutwork,
  checkBack,
  correctOutwork,
  correctOutworker,
  sendOut,
} from './keep-outwork.js';
import {
  BackFields,
  CheckedFields,
  CorrectedFields,
  OutworkerFields,
  OutworkFields,
  PlainCorrectedFields,
  PlainOutworkFields,
} from './outwork.form.js';
import { outworkTold, ticketInJson } from './outwork-told.js';
import { mustSeePrices } from './outworkers.controller.js';

const ID = '0190d5a2-7c1e-7b44-9f0a-3d1f5f0f2a11';
const OUTWORKER = {
  name: 'Perpetua Lintwhistle',
  rates: [{ work: 'Buttonholes by hand', price: '3.50' }],
};

/** Outwork for programs. Prices are left out for who may not see them. */
@Controller('api/outwork')
export class OutworkApi {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Get()
  @Describe({
    summary:
      'Outwork tickets, newest first; `state=out` for what is out now, `state=owed` for what is back and not paid',
  })
  async list(
    @Hand() hand: SignedIn,
    @Query('state') state = '',
    @Query('after') after = '',
    @Query('limit') limit = '30',
  ): Promise<Reply> {
    const most = pageSize(limit, 30);
    const { items, next } =
      state === 'out'
        ? { items: await outworkBook.out(this.read), next: undefined }
        : state === 'owed'
          ? { items: await outworkBook.owed(this.read), next: undefined }
          : await outworkBook.list(this.read, most, after);
    const told = await outworkTold(this.read, this.clock, hand, items);
    return answer({ items: items.map((ticket) => ticketInJson(ticket, told)), next: next ?? null });
  }

  @Get('workers')
  @Describe({ summary: 'Outworkers with their piece rates' })
  async outworkers(@Hand() hand: SignedIn): Promise<Reply> {
    mustSeePrices(hand);
    return answer({ items: await outworkerBook.all(this.read) });
  }

  @Post('workers')
  @Describe({ summary: 'Add an outworker', examples: { buttonholes: OUTWORKER } })
  async addOutworker(@Body() body: unknown, @Hand() hand: SignedIn): Promise<Reply> {
    mustSeePrices(hand);
    const { value } = await addOutworker(this.unit, hand, parse(OutworkerFields(await this.kit()), body));
    return created(`/api/outwork/workers/${value.id}`, value);
  }

  @Get('workers/:id')
  @Describe({ summary: 'One outworker' })
  async outworker(@Param('id') id: string, @Hand() hand: SignedIn): Promise<Reply> {
    mustSeePrices(hand);
    const outworker = await outworkerBook.one(this.read, id);
    return answer(outworker, 200, etagOf(outworker.version));
  }

  @Put('workers/:id')
  @Describe({
    summary: 'Correct an outworker; work that is out keeps the rate it went out at',
    examples: { dearer: { ...OUTWORKER, rates: [{ work: 'Buttonholes by hand', price: '4.00' }] } },
  })
  async correctOutworker(
    @Param('id') id: string,
    @Body() body: unknown,
    @Headers('if-match') match: string | undefined,
    @Hand() hand: SignedIn,
  ): Promise<Reply> {
    mustSeePrices(hand);
    const said = parse(OutworkerFields(await this.kit()), body);
    await presentAs(
      () => this.outworker(id, hand),
      () => correctOutworker(this.unit, hand, id, said, versionOfIfMatch(match)),
    );
    return this.outworker(id, hand);
  }

  @Post()
  @Describe({
    summary: 'Send work out',
    description: 'Without `pieceRate` it is paid by the outworker’s list.',
    examples: {
      buttonholes: {
        outworker: ID,
        garment: ID,
        work: 'Buttonholes by hand',
        pieces: 8,
        outOn: '2026-03-02',
        dueOn: '2026-03-09',
      },
    },
  })
  async send(@Body() body: unknown, @Hand() hand: SignedIn): Promise<Reply> {
    const fields = hand.seesPrices ? OutworkFields(await this.kit()) : PlainOutworkFields;
    const { value } = await sendOut(this.unit, hand, parse(fields, body));
    return created(`/api/outwork/${value.id}`, await this.told(value.id, hand));
  }

  @Get(':id')
  @Describe({ summary: 'One ticket' })
  async one(@Param('id') id: string, @Hand() hand: SignedIn): Promise<Reply> {
    const { version } = await outworkBook.one(this.read, id);
    return answer(await this.told(id, hand), 200, etagOf(version));
  }

  @Put(':id')
  @Describe({
    summary: 'Correct a ticket that is not paid',
    examples: { nine: { work: 'Buttonholes by hand', pieces: 9, outOn: '2026-03-02' } },
  })
  async correct(
    @Param('id') id: string,
    @Body() body: unknown,
    @Headers('if-match') match: string | undefined,
    @Hand() hand: SignedIn,
  ): Promise<Reply> {
    const said = parse(hand.seesPrices ? CorrectedFields(await this.kit()) : PlainCorrectedFields, body);
    await presentAs(
      () => this.one(id, hand),
      () => correctOutwork(this.unit, hand, id, said, versionOfIfMatch(match)),
    );
    return this.one(id, hand);
  }

  @Post(':id/back')
  @Describe({
    summary: 'Say that the work came back; from then on it is owed',
    description: 'It is paid by `POST /api/money-out/paid` about `outwork/ID`.',
    examples: { back: { backOn: '2026-03-09' } },
  })
  async back(
    @Param('id') id: string,
    @Body({ schema: BackFields }) body: unknown,
    @Hand() hand: SignedIn,
  ): Promise<Reply> {
    await bringBackOutwork(this.unit, hand, id, parse(BackFields, body));
    return this.one(id, hand);
  }

  @Post(':id/checked')
  @Describe({
    summary: 'Say that the work was looked over, and what was found',
    examples: { good: { checkedOn: '2026-03-10', found: 'one buttonhole frayed, done again' } },
  })
  async checked(
    @Param('id') id: string,
    @Body({ schema: CheckedFields }) body: unknown,
    @Hand() hand: SignedIn,
  ): Promise<Reply> {
    await checkBack(this.unit, hand, id, parse(CheckedFields, body));
    return this.one(id, hand);
  }

  private async kit() {
    return sentKit((await studioBook.the(this.read)).identity.currency);
  }

  private async told(id: string, hand: SignedIn) {
    const ticket = await outworkBook.one(this.read, id);
    return ticketInJson(ticket, await outworkTold(this.read, this.clock, hand, [ticket]));
  }
}
