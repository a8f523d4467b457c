import { Module } from '@nestjs/common';
import { FirstRunController } from './first-run/first-run.controller.js';
import { HouseApi } from './house.api.js';
import { HouseController } from './house.controller.js';

@Module({ controllers: [FirstRunController, HouseController, HouseApi] })
export class HouseModule {}
