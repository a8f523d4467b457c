import { Module } from '@nestjs/common';
import { ClothRoomController } from './cloth-room.controller.js';
import { ClothMaterialsApi } from './materials/materials.api.js';
import { ClothMaterialsController } from './materials/materials.controller.js';
import { SuppliersApi } from './suppliers/suppliers.api.js';
import { SuppliersController } from './suppliers/suppliers.controller.js';

@Module({
  controllers: [
    ClothRoomController,
    ClothMaterialsController,
    ClothMaterialsApi,
    SuppliersController,
    SuppliersApi,
  ],
})
export class ClothRoomModule {}
