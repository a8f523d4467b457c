import { Module } from '@nestjs/common';
import { ClientsApi } from './clients.api.js';
import { ClientsController } from './clients.controller.js';

@Module({ controllers: [ClientsController, ClientsApi] })
export class ClientsModule {}
