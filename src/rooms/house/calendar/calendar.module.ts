import { Module } from '@nestjs/common';
import { CalendarApi } from './calendar.api.js';
import { CalendarController } from './calendar.controller.js';
import { FeedController } from './feed.controller.js';

@Module({ controllers: [CalendarController, FeedController, CalendarApi] })
export class CalendarModule {}
