import { Module } from '@nestjs/common';
import { BenchPapers } from './bench-papers.js';
import { BenchPapersApi } from './papers.api.js';
import { BenchPapersController } from './papers.controller.js';

@Module({ controllers: [BenchPapersController, BenchPapersApi], providers: [BenchPapers] })
export class BenchPapersModule {}
