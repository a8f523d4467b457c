import { Body, Controller, Get, Headers, Param, Post, Put, Query } from '@nestjs/common';
import {
  type CounterTicket,
  counterComesTo,
  counterState,
  daysWaiting,
} from '../../../domain/counter/counter-ticket.js';
import { counterBook } from '../../../storage/books/counter/counter-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../../storage/clock.js';
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
import { CollectedFields, CounterFields, PlainCounterFields, ReadyFields } from './counter.form.js';
import { correctTicket, markCollected, markReady, takeIn } from './keep-ticket.js';

const TICKET = {
  name: 'Sabeline Thrushwood',
  what: 'Grey flannel trousers',
  found: 'a rust mark at the left knee',
  cameOn: '2026-03-02',
  readyBy: '2026-03-06',
  lines: [{ job: 'Hem by hand', price: '18.00' }],
};

/** Counter work for programs. Prices and addresses are left out for who may not see them. */
@Controller('api/counter')
export class CounterApi {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Get()
  @Describe({
    summary: 'Tickets, newest first; `state=here` for what is in the house, ready longest first',
  })
  async list(
    @Hand() hand: SignedIn,
    @Query('state') state = '',
    @Query('after') after = '',
    @Query('limit') limit = '30',
  ): Promise<Reply> {
    const most = pageSize(limit, 30);
    const { items, next } =
      state === 'here'
        ? { items: await counterBook.here(this.read), next: undefined }
        : await counterBook.list(this.read, most, after);
    const today = await this.today();
    return answer({ items: items.map((ticket) => inJson(ticket, today, hand)), next: next ?? null });
  }

  @Post()
  @Describe({
    summary: 'Take work in over the counter',
    description:
      'A job names itself (`job`) or a line of the house price list (`fromList`); without `price` it has the list’s.',
    examples: { hem: TICKET },
  })
  async takeIn(@Body() body: unknown, @Hand() hand: SignedIn): Promise<Reply> {
    const said = parse(await this.fields(hand), body);
    const { value } = await takeIn(this.unit, hand, this.clock, said, hand.seesPrices);
    return created(`/api/counter/${value.id}`, inJson(value, await this.today(), hand));
  }

  @Get(':id')
  @Describe({ summary: 'One ticket' })
  async one(@Param('id') id: string, @Hand() hand: SignedIn): Promise<Reply> {
    const ticket = await counterBook.one(this.read, id);
    return answer(inJson(ticket, await this.today(), hand), 200, etagOf(ticket.version));
  }

  @Put(':id')
  @Describe({ summary: 'Correct a ticket', examples: { later: { ...TICKET, readyBy: '2026-03-09' } } })
  async correct(
    @Param('id') id: string,
    @Body() body: unknown,
    @Headers('if-match') match: string | undefined,
    @Hand() hand: SignedIn,
  ): Promise<Reply> {
    const said = parse(hand.seesPrices ? await this.fields(hand) : PlainCounterFields, body);
    await presentAs(
      () => this.one(id, hand),
      () => correctTicket(this.unit, hand, this.clock, id, said, versionOfIfMatch(match)),
    );
    return this.one(id, hand);
  }

  @Post(':id/ready')
  @Describe({ summary: 'Say that it is ready', examples: { ready: { readyOn: '2026-03-05' } } })
  async ready(
    @Param('id') id: string,
    @Body({ schema: ReadyFields }) body: unknown,
    @Hand() hand: SignedIn,
  ): Promise<Reply> {
    await markReady(this.unit, hand, id, parse(ReadyFields, body));
    return this.one(id, hand);
  }

  @Post(':id/collected')
  @Describe({
    summary: 'Say who collected it, and when',
    examples: { herself: { collectedOn: '2026-03-07', collectedBy: 'Sabeline Thrushwood' } },
  })
  async collected(
    @Param('id') id: string,
    @Body({ schema: CollectedFields }) body: unknown,
    @Hand() hand: SignedIn,
  ): Promise<Reply> {
    await markCollected(this.unit, hand, id, parse(CollectedFields, body));
    return this.one(id, hand);
  }

  private async today() {
    return todayIn(this.clock, (await studioBook.the(this.read)).identity.zone);
  }

  private async fields({ seesPrices }: SignedIn) {
    return CounterFields(sentKit((await studioBook.the(this.read)).identity.currency), seesPrices);
  }
}

const inJson = (ticket: CounterTicket, today: string, { seesPrices }: SignedIn): object => {
  const { lines, reachedAt, ...plain } = ticket;
  const told = { ...plain, state: counterState(ticket, today), daysWaiting: daysWaiting(ticket, today) };
  if (!seesPrices) return { ...told, lines: lines.map(({ job }) => ({ job })) };
  const { total, open } = counterComesTo(ticket);
  const priced = lines.map(({ job, price }) => ({ job, price: price ?? null }));
  return { ...told, reachedAt, lines: priced, comesTo: total, withoutPrice: open };
};
