import { Module } from '@nestjs/common';
import { PapersApi } from './papers.api.js';
import { PapersController } from './papers.controller.js';

@Module({ controllers: [PapersController, PapersApi] })
export class PapersModule {}
