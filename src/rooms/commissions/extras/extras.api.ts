import { randomUUID } from 'node:crypto';
import { Body, Controller, Get, Headers, Param, Post } from '@nestjs/common';
import type { Extra } from '../../../domain/commissions/extra.js';
import { NotFound } from '../../../domain/kernel/errors.js';
import { agreedPlanBook } from '../../../storage/books/bench/agreed-plan-book.js';
import { extraBook } from '../../../storage/books/bench/extra-book.js';
import { commissionBook } from '../../../storage/books/commission-book.js';
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
import { garmentIn } from '../garments/change-garment.js';
import { answerExtra, offerExtra, offerTakingBack } from './change-extras.js';
import { AnswerSent, ExtraSent, TakeBackFields } from './extra.form.js';
import { extraInJson } from './extra-words.js';
import { prepareExtra } from './prepare-extra.js';

const POCKETS = {
  garmentId: '0190a1b2-0000-7000-8000-000000000001',
  cause: 'client asked',
  wording: 'Bellows pockets, two',
  operations: [{ line: 'bellows pockets 2', minutes: 95 }],
};

/** The extras of a commission for programs. */
@Controller('api/commissions/:commission/extras')
export class ExtrasApi {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Get()
  @Describe({ summary: 'The extras of a commission, by number, in every state.' })
  async list(@Param('commission') id: string): Promise<Reply> {
    await commissionBook.one(this.read, id);
    const extras = await extraBook.ofCommission(this.read, id);
    return answer({ items: extras.map((extra) => extraInJson(extra, extras)) });
  }

  @Post('work-out')
  @Describe({
    summary: 'What an extra would do to hours, price and day; nothing is kept.',
    description:
      'Hours and price are the garment’s sum with it and without it, at the commission’s pricing choices.',
    examples: { 'what the client asked for': POCKETS },
  })
  async workOut(@Param('commission') id: string, @Body() body: unknown): Promise<Reply> {
    const { words, out } = await prepareExtra(this.read, this.clock, await this.said(id, body), randomUUID);
    const { work: _, ...rest } = words;
    return answer({
      ...rest,
      currency: words.price.currency,
      minutes: out.minutes,
      workedOutPrice: out.price ?? null,
      minutesLeft: out.left,
      weeklyMinutes: out.weekly ?? null,
      doneWithout: out.done?.without ?? null,
      doneWith: out.done?.with ?? null,
    });
  }

  @Post()
  @Describe({
    summary: 'Offers an extra, or gives it where kind is "compliments".',
    description:
      'Price, wording and day are worked out where they are left out. The causes "own error" and "forgotten in the plan" are refused: they are never an extra.',
    examples: { 'what the client asked for': POCKETS },
  })
  async offer(@Param('commission') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const { words } = await prepareExtra(this.read, this.clock, await this.said(id, body), randomUUID);
    const { value } = await offerExtra(this.unit, visit, words, await this.today());
    return created(`/api/commissions/${id}/extras/${value.number}`, await this.inJson(value));
  }

  @Get(':number')
  @Describe({ summary: 'One extra by its number in the commission.' })
  async one(@Param('commission') id: string, @Param('number') number: string): Promise<Reply> {
    const extra = await this.numbered(id, number);
    return answer(await this.inJson(extra), 200, etagOf(extra.version));
  }

  @Post(':number/answer')
  @Describe({
    summary: 'Puts an answer down for good: agreed, declined, given or withdrawn.',
    examples: {
      agreed: { act: 'agreed', byWhom: 'Corvin Haddlestone', how: 'in person', on: '2026-03-02' },
    },
  })
  async answer(
    @Param('commission') id: string,
    @Param('number') number: string,
    @Body() body: unknown,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const { act, ...said } = parse(AnswerSent, body);
    const { id: extraId } = await this.numbered(id, number);
    const today = await this.today();
    const { value } = await presentAs(
      () => this.one(id, number),
      () => answerExtra(this.unit, visit, extraId, act, said, today, versionOfIfMatch(match)),
    );
    return answer(await this.inJson(value), 201, etagOf(value.version));
  }

  @Post(':number/take-back')
  @Describe({
    summary: 'Offers the extra that takes an agreed one back.',
    examples: { 'in plain words': { wording: 'Jetted pockets after all' } },
  })
  async takeBack(
    @Param('commission') id: string,
    @Param('number') number: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const { wording } = parse(TakeBackFields, body);
    const { id: extraId } = await this.numbered(id, number);
    const { value } = await offerTakingBack(this.unit, visit, extraId, wording, await this.today());
    return created(`/api/commissions/${id}/extras/${value.number}`, await this.inJson(value));
  }

  private async said(commissionId: string, body: unknown) {
    const { identity } = await studioBook.the(this.read);
    const said = parse(ExtraSent(identity.currency), body);
    await garmentIn(this.read, commissionId, said.garmentId);
    return said;
  }

  private async numbered(commissionId: string, number: string): Promise<Extra> {
    if (!/^\d{1,6}$/.test(number)) throw new NotFound('extra of this commission');
    return extraBook.numbered(this.read, commissionId, Number(number));
  }

  private async inJson(extra: Extra): Promise<object> {
    return extraInJson(extra, await extraBook.ofCommission(this.read, extra.commissionId));
  }

  private async today(): Promise<string> {
    return todayIn(this.clock, (await studioBook.the(this.read)).identity.zone);
  }
}

/** The agreed plan of a garment for programs. */
@Controller('api/garments/:garment/agreed-plan')
export class AgreedPlanApi {
  constructor(private readonly read: ReadSide) {}

  @Get()
  @Describe({
    summary: 'What was quoted for a garment, and the same with the extras agreed since.',
    description: 'Where no quote was accepted, the plan as it stands without the extras takes its place.',
  })
  async one(@Param('garment') id: string): Promise<Reply> {
    const { quote, quotedNet, quoted, agreed, extras } = await agreedPlanBook.of(this.read, id);
    return answer({
      quote: quote ?? null,
      quotedNet: quotedNet ?? null,
      quoted,
      agreed,
      extras: extras.map(({ number, state, kind, price }) => ({ number, state, kind, price })),
    });
  }
}
