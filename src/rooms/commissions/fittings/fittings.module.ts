import { Module } from '@nestjs/common';
import { GarmentPatternApi } from '../patterns/garment-pattern.api.js';
import { GarmentPatternController } from '../patterns/garment-pattern.controller.js';
import { FittingsApi } from './fittings.api.js';
import { FittingsController } from './fittings.controller.js';

@Module({ controllers: [FittingsController, FittingsApi, GarmentPatternController, GarmentPatternApi] })
export class FittingsModule {}
