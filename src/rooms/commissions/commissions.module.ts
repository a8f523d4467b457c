import { Module } from '@nestjs/common';
import { CommissionsApi } from './commissions.api.js';
import { CommissionsController } from './commissions.controller.js';
import { GarmentsApi } from './garments/garments.api.js';
import { GarmentsController } from './garments/garments.controller.js';
import { ExpensesController } from './materials/expenses.controller.js';
import { MaterialsController } from './materials/materials.controller.js';
import { PlanController } from './plan/plan.controller.js';
import { PricingController } from './pricing.controller.js';
import { SumModule } from './sum/sum.module.js';

@Module({
  imports: [SumModule],
  controllers: [
    CommissionsController,
    PricingController,
    GarmentsController,
    PlanController,
    MaterialsController,
    ExpensesController,
    CommissionsApi,
    GarmentsApi,
  ],
})
export class CommissionsModule {}
