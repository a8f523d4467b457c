import { Module } from '@nestjs/common';
import { MoneyOutApi } from './money-out.api.js';
import { MoneyOutController } from './money-out.controller.js';

@Module({ controllers: [MoneyOutController, MoneyOutApi] })
export class MoneyOutModule {}
