import { Module } from '@nestjs/common';
import { FirstRunController } from './first-run/first-run.controller.js';
import { HouseApi } from './house.api.js';
import { HouseController } from './house.controller.js';
import { MakingApi } from './making/making.api.js';
import { MakingController } from './making/making.controller.js';
import { MarkApi } from './mark/mark.api.js';
import { MarkController } from './mark/mark.controller.js';

@Module({
  controllers: [
    FirstRunController,
    MakingController,
    MarkController,
    HouseController,
    MakingApi,
    MarkApi,
    HouseApi,
  ],
})
export class HouseModule {}
