import { Module } from '@nestjs/common';
import { CounterApi } from './counter.api.js';
import { CounterController } from './counter.controller.js';

@Module({ controllers: [CounterController, CounterApi] })
export class CounterModule {}
