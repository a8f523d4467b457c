import { Module } from '@nestjs/common';
import { BenchController } from './bench.controller.js';
import { ClockApi } from './clock/clock.api.js';
import { ClockController } from './clock/clock.controller.js';
import { EntriesController } from './time/entries.controller.js';
import { TimeApi } from './time/time.api.js';
import { TimeController } from './time/time.controller.js';

@Module({
  controllers: [BenchController, ClockController, ClockApi, TimeController, EntriesController, TimeApi],
})
export class BenchModule {}
