import { Module } from '@nestjs/common';
import { BenchController } from './bench.controller.js';
import { ClockApi } from './clock/clock.api.js';
import { ClockController } from './clock/clock.controller.js';

@Module({ controllers: [BenchController, ClockController, ClockApi] })
export class BenchModule {}
