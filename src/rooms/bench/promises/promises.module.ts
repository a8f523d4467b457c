import { Module } from '@nestjs/common';
import { PromiseDesk } from './promise-desk.js';
import { PromisesApi } from './promises.api.js';
import { PromisesController } from './promises.controller.js';

@Module({ controllers: [PromisesController, PromisesApi], providers: [PromiseDesk] })
export class PromisesModule {}
