import { Body, Controller, Post, UseGuards } from '@nestjs/common';
import type { z } from 'zod';
import type { CurrencyCode } from '../../domain/kernel/currency.js';
import { studioBook } from '../../storage/books/studio-book.js';
import { ReadSide } from '../../storage/read-side.js';
import { Describe } from '../../web/api/describe.js';
import { JsonOnly } from '../../web/api/json-only.guard.js';
import { parseJson } from '../../web/api/parse-json.js';
import { answer, type Reply } from '../../web/reply.js';
import type { LongQuestion } from './aside/answers.js';
import { Aside } from './aside/aside.js';
import { backtest } from './aside/backtest.js';
import { hours } from './aside/hours.js';
import { earnedValue } from './earned-value.js';
import { handStitching } from './hand-stitching.js';
import { landedCost } from './landed-cost.js';
import { price } from './price.js';
import { promise } from './promise.js';
import type { Question } from './question.js';
import { stock } from './stock.js';
import { tax } from './tax.js';
import { threadRatio } from './thread/thread-ratio.js';
import { trueHours } from './true-hours.js';
import { variances } from './variances.js';

const CURRENCY_OF_NO_STUDIO = 'EUR';

/** Questions that are worked out and forgotten: nothing is stored. */
@Controller('api/work-out')
@UseGuards(JsonOnly)
export class WorkOutApi {
  constructor(
    private readonly read: ReadSide,
    private readonly aside: Aside,
  ) {}

  @Post('price')
  @Describe(price)
  price(@Body({ schema: price.schema }) sent: unknown): Promise<Reply> {
    return this.work(price, sent);
  }

  @Post('tax')
  @Describe(tax)
  tax(@Body({ schema: tax.schema }) sent: unknown): Promise<Reply> {
    return this.work(tax, sent);
  }

  @Post('stock')
  @Describe(stock)
  stock(@Body({ schema: stock.schema }) sent: unknown): Promise<Reply> {
    return this.work(stock, sent);
  }

  @Post('landed-cost')
  @Describe(landedCost)
  landedCost(@Body({ schema: landedCost.schema }) sent: unknown): Promise<Reply> {
    return this.work(landedCost, sent);
  }

  @Post('variances')
  @Describe(variances)
  variances(@Body({ schema: variances.schema }) sent: unknown): Promise<Reply> {
    return this.work(variances, sent);
  }

  @Post('hours')
  @Describe(hours)
  async hours(@Body({ schema: hours.schema }) sent: unknown): Promise<Reply> {
    return this.workAside(hours, sent);
  }

  @Post('true-hours')
  @Describe(trueHours)
  trueHours(@Body({ schema: trueHours.schema }) sent: unknown): Promise<Reply> {
    return this.work(trueHours, sent);
  }

  @Post('backtest')
  @Describe(backtest)
  async backtest(@Body({ schema: backtest.schema }) sent: unknown): Promise<Reply> {
    return this.workAside(backtest, sent);
  }

  @Post('hand-stitching')
  @Describe(handStitching)
  handStitching(@Body({ schema: handStitching.schema }) sent: unknown): Promise<Reply> {
    return this.work(handStitching, sent);
  }

  @Post('thread-ratio')
  @Describe(threadRatio)
  threadRatio(@Body({ schema: threadRatio.schema }) sent: unknown): Promise<Reply> {
    return this.work(threadRatio, sent);
  }

  @Post('earned-value')
  @Describe(earnedValue)
  earnedValue(@Body({ schema: earnedValue.schema }) sent: unknown): Promise<Reply> {
    return this.work(earnedValue, sent);
  }

  @Post('promise')
  @Describe(promise)
  promise(@Body({ schema: promise.schema }) sent: unknown): Promise<Reply> {
    return this.work(promise, sent);
  }

  private async work<S extends z.ZodType>(asked: Question<S>, sent: unknown): Promise<Reply> {
    return answer(asked.answer(parseJson(asked.schema, sent), await this.currency()));
  }

  private async workAside<S extends z.ZodType>(asked: Question<S>, sent: unknown): Promise<Reply> {
    const long = asked.answer(parseJson(asked.schema, sent), CURRENCY_OF_NO_STUDIO) as LongQuestion;
    return answer(await this.aside.answer(long));
  }

  private async currency(): Promise<CurrencyCode> {
    return (await studioBook.maybe(this.read))?.identity.currency ?? CURRENCY_OF_NO_STUDIO;
  }
}
