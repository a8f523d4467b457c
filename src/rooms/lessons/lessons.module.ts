import { Module } from '@nestjs/common';
import { LessonsImportController } from './import/import.controller.js';
import { LessonsApi } from './lessons.api.js';
import { LessonsController } from './lessons.controller.js';
import { ProofController } from './proof/proof.controller.js';
import { TypeController } from './type/type.controller.js';

@Module({
  controllers: [LessonsImportController, ProofController, TypeController, LessonsController, LessonsApi],
})
export class LessonsModule {}
