import { Module } from '@nestjs/common';
import { SumApi } from './sum.api.js';
import { SumController } from './sum.controller.js';

@Module({ controllers: [SumController, SumApi] })
export class SumModule {}
