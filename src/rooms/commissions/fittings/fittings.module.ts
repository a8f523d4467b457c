import { Module } from '@nestjs/common';
import { FittingsApi } from './fittings.api.js';
import { FittingsController } from './fittings.controller.js';

@Module({ controllers: [FittingsController, FittingsApi] })
export class FittingsModule {}
