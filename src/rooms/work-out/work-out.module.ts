import { Module } from '@nestjs/common';
import { HttpAdapterHost } from '@nestjs/core';
import { raiseBodyLimit } from '../../web/api/body-limit.js';
import { OpenApiModule } from '../../web/api/open-api.module.js';
import { Aside } from './aside/aside.js';
import { WorkOutApi } from './work-out.api.js';

/** A whole trail of past work in one question. */
const HISTORY_LIMIT = 32 * 1024 * 1024;

@Module({ imports: [OpenApiModule], controllers: [WorkOutApi], providers: [Aside] })
export class WorkOutModule {
  constructor(host: HttpAdapterHost) {
    raiseBodyLimit(host, ['/api/work-out/hours', '/api/work-out/backtest'], HISTORY_LIMIT);
  }
}
