import { Module } from '@nestjs/common';
import { BatchApi, BatchController } from './batch/batch.controller.js';
import { Batches } from './batch/batches.js';
import { InvoicesApi } from './invoices.api.js';
import { InvoicesController } from './invoices.controller.js';
import { IssuedApi } from './issued/issued.api.js';
import { IssuedController } from './issued/issued.controller.js';
import { IssuingInvoicesController } from './issuing/issuing.controller.js';
import { IssuingInvoices } from './issuing/issuing-invoices.js';

@Module({
  controllers: [
    BatchController,
    BatchApi,
    InvoicesController,
    IssuingInvoicesController,
    IssuedController,
    InvoicesApi,
    IssuedApi,
  ],
  providers: [IssuingInvoices, Batches],
  exports: [IssuingInvoices],
})
export class InvoicesModule {}
