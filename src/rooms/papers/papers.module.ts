import { Module } from '@nestjs/common';
import { AccountDesk } from './accounts/account-desk.js';
import { PapersApi } from './papers.api.js';
import { PapersController } from './papers.controller.js';

@Module({ controllers: [PapersController, PapersApi], providers: [AccountDesk] })
export class PapersModule {}
