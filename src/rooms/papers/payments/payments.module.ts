import { Module } from '@nestjs/common';
import { HttpAdapterHost } from '@nestjs/core';
import { raiseBodyLimit } from '../../../web/api/body-limit.js';
import { AccountDesk } from '../accounts/account-desk.js';
import { AccountsApi } from '../accounts/accounts.api.js';
import { AccountsController } from '../accounts/accounts.controller.js';
import { Reminders } from '../accounts/send-reminder.js';
import { BookkeepingApi, BookkeepingController } from '../bookkeeping/bookkeeping.controller.js';
import { BankApi } from './bank/bank.api.js';
import { BankController } from './bank/bank.controller.js';
import { PaymentDesk } from './payment-desk.js';
import { PaymentsApi } from './payments.api.js';
import { PaymentsController } from './payments.controller.js';
import { Receipts } from './receipts/write-receipt.js';

@Module({
  controllers: [
    PaymentsController,
    PaymentsApi,
    AccountsController,
    AccountsApi,
    BankController,
    BankApi,
    BookkeepingController,
    BookkeepingApi,
  ],
  providers: [PaymentDesk, Receipts, Reminders, AccountDesk],
})
export class PaymentsModule {
  constructor(host: HttpAdapterHost) {
    raiseBodyLimit(host, ['/api/payments/bank'], 13 * 1024 * 1024);
  }
}
