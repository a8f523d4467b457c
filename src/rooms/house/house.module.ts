import { Module } from '@nestjs/common';
import { FirstRunController } from './first-run/first-run.controller.js';
import { HouseApi } from './house.api.js';
import { HouseController } from './house.controller.js';
import { MakingApi } from './making/making.api.js';
import { MakingController } from './making/making.controller.js';

@Module({ controllers: [FirstRunController, MakingController, HouseController, MakingApi, HouseApi] })
export class HouseModule {}
