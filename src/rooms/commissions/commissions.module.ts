import { Module } from '@nestjs/common';
import { CommissionsApi } from './commissions.api.js';
import { CommissionsController } from './commissions.controller.js';
import { PricingController } from './pricing.controller.js';
import { SumModule } from './sum/sum.module.js';

@Module({ imports: [SumModule], controllers: [CommissionsController, PricingController, CommissionsApi] })
export class CommissionsModule {}
