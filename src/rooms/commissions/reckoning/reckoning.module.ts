import { Module } from '@nestjs/common';
import { ReckoningApi } from './reckoning.api.js';
import { ReckoningController } from './reckoning.controller.js';

@Module({ controllers: [ReckoningController, ReckoningApi] })
export class ReckoningModule {}
