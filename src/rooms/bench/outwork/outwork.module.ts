import { Module } from '@nestjs/common';
import { OutworkApi } from './outwork.api.js';
import { OutworkController } from './outwork.controller.js';
import { OutworkersController } from './outworkers.controller.js';

@Module({ controllers: [OutworkersController, OutworkController, OutworkApi] })
export class OutworkModule {}
