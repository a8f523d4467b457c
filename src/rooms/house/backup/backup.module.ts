import { Module } from '@nestjs/common';
import { BackupApi } from './backup.api.js';
import { BackupController } from './backup.controller.js';

@Module({ controllers: [BackupController, BackupApi] })
export class BackupModule {}
