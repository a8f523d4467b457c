import { Module } from '@nestjs/common';
import { ClothRoomController } from './cloth-room.controller.js';
import { BringInController } from './lots/bring-in.controller.js';
import { IntakeReceiptController } from './lots/intake-receipt.controller.js';
import { LotsApi } from './lots/lots.api.js';
import { LotsController } from './lots/lots.controller.js';
import { ClothMaterialsApi } from './materials/materials.api.js';
import { ClothMaterialsController } from './materials/materials.controller.js';
import { MovementsApi } from './movements/movements.api.js';
import { MovementsController } from './movements/movements.controller.js';
import { NeedController } from './need/need.controller.js';
import { PurchasesApi } from './purchases/purchases.api.js';
import { PurchasesController } from './purchases/purchases.controller.js';
import { ReservationsController } from './reservations/reservations.controller.js';
import { ShoppingController } from './shopping/shopping.controller.js';
import { SpendController } from './spend/spend.controller.js';
import { SuppliersApi } from './suppliers/suppliers.api.js';
import { SuppliersController } from './suppliers/suppliers.controller.js';

@Module({
  controllers: [
    ClothRoomController,
    ClothMaterialsController,
    ClothMaterialsApi,
    SuppliersController,
    SuppliersApi,
    PurchasesController,
    PurchasesApi,
    LotsController,
    LotsApi,
    BringInController,
    IntakeReceiptController,
    MovementsController,
    MovementsApi,
    ReservationsController,
    SpendController,
    ShoppingController,
    NeedController,
  ],
})
export class ClothRoomModule {}
