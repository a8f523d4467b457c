import { Module } from '@nestjs/common';
import { EnquiriesApi } from './enquiries.api.js';
import { EnquiriesController } from './enquiries.controller.js';

@Module({ controllers: [EnquiriesController, EnquiriesApi] })
export class EnquiriesModule {}
