import { Module } from '@nestjs/common';
import { ExportApi, ExportController } from './export.controller.js';
import { Exports } from './exports.js';

@Module({ controllers: [ExportController, ExportApi], providers: [Exports] })
export class ExportModule {}
