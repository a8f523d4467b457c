import { Module } from '@nestjs/common';
import { AnswersController } from './answers/answers.controller.js';
import { IssuingController } from './issuing/issuing.controller.js';
import { Issuing } from './issuing/issuing.js';
import { QuotesApi } from './quotes.api.js';
import { QuotesController } from './quotes.controller.js';

@Module({
  controllers: [QuotesController, IssuingController, AnswersController, QuotesApi],
  providers: [Issuing],
})
export class QuotesModule {}
