import { Module } from '@nestjs/common';
import { RatesApi } from './rates.api.js';
import { RatesController } from './rates.controller.js';

@Module({ controllers: [RatesController, RatesApi] })
export class RatesModule {}
