import { Module } from '@nestjs/common';
import { FirstRunController } from './first-run/first-run.controller.js';

@Module({ controllers: [FirstRunController] })
export class HouseModule {}
