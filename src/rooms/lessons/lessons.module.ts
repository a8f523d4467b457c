import { Module } from '@nestjs/common';
import { LessonsApi } from './lessons.api.js';
import { LessonsController } from './lessons.controller.js';

@Module({ controllers: [LessonsController, LessonsApi] })
export class LessonsModule {}
