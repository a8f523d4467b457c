import { Module } from '@nestjs/common';
import { HistoryController } from './history.controller.js';

@Module({ controllers: [HistoryController] })
export class HistoryModule {}
