import { Module } from '@nestjs/common';
import { HistoryApi } from './history.api.js';
import { HistoryController } from './history.controller.js';

@Module({ controllers: [HistoryController, HistoryApi] })
export class HistoryModule {}
