import { Module } from '@nestjs/common';
import { CancelledController } from './cancelled/cancelled.controller.js';
import { CommissionsApi } from './commissions.api.js';
import { CommissionsController } from './commissions.controller.js';
import { CuttingController } from './cutting/cutting.controller.js';
import { ExtraController } from './extras/extra.controller.js';
import { AgreedPlanApi, ExtrasApi } from './extras/extras.api.js';
import { ExtrasController } from './extras/extras.controller.js';
import { GarmentsApi } from './garments/garments.api.js';
import { GarmentsController } from './garments/garments.controller.js';
import { HandOverController } from './hand-over/hand-over.controller.js';
import { MarksApi } from './life/marks.api.js';
import { MarksController } from './life/marks.controller.js';
import { ExpensesApi } from './materials/expenses.api.js';
import { ExpensesController } from './materials/expenses.controller.js';
import { MaterialsApi } from './materials/materials.api.js';
import { MaterialsController } from './materials/materials.controller.js';
import { CopyController } from './plan/earlier/copy.controller.js';
import { OperationController } from './plan/operation/operation.controller.js';
import { PlanApi } from './plan/plan.api.js';
import { PlanController } from './plan/plan.controller.js';
import { PricingController } from './pricing.controller.js';
import { SumModule } from './sum/sum.module.js';

// Where an address names an act (plan/copy), its controller stands before the one that takes any key (plan/:operation).
@Module({
  imports: [SumModule],
  controllers: [
    CommissionsController,
    PricingController,
    GarmentsController,
    PlanController,
    CopyController,
    OperationController,
    MaterialsController,
    ExpensesController,
    CommissionsApi,
    GarmentsApi,
    PlanApi,
    MaterialsApi,
    ExpensesApi,
    ExtrasController,
    ExtraController,
    ExtrasApi,
    AgreedPlanApi,
    CuttingController,
    HandOverController,
    CancelledController,
    MarksController,
    MarksApi,
  ],
})
export class CommissionsModule {}
