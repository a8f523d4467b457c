import { Module } from '@nestjs/common';
import { ClientsApi } from './clients.api.js';
import { ClientsController } from './clients.controller.js';
import { HeldApi } from './held/held.api.js';
import { HeldController } from './held/held.controller.js';
import { ImportApi } from './import/import.api.js';
import { ImportController } from './import/import.controller.js';
import { KeepingApi } from './keeping/keeping.api.js';
import { KeepingController } from './keeping/keeping.controller.js';
import { MeasurementsApi } from './measurements/measurements.api.js';
import { MeasurementsController } from './measurements/measurements.controller.js';
import { MeasuringListsApi } from './measuring-lists/measuring-lists.api.js';
import { MeasuringListsController } from './measuring-lists/measuring-lists.controller.js';
import { PatternsApi } from './patterns/patterns.api.js';
import { PatternsController } from './patterns/patterns.controller.js';

@Module({
  controllers: [
    ImportController,
    ImportApi,
    ClientsController,
    ClientsApi,
    MeasurementsController,
    MeasurementsApi,
    MeasuringListsController,
    MeasuringListsApi,
    PatternsController,
    PatternsApi,
    HeldController,
    HeldApi,
    KeepingController,
    KeepingApi,
  ],
})
export class ClientsModule {}
