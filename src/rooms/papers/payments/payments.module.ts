import { Module } from '@nestjs/common';
import { AccountDesk } from '../accounts/account-desk.js';
import { AccountsApi } from '../accounts/accounts.api.js';
import { AccountsController } from '../accounts/accounts.controller.js';
import { PaymentDesk } from './payment-desk.js';
import { PaymentsApi } from './payments.api.js';
import { PaymentsController } from './payments.controller.js';
import { Receipts } from './receipts/write-receipt.js';

@Module({
  controllers: [PaymentsController, PaymentsApi, AccountsController, AccountsApi],
  providers: [PaymentDesk, Receipts, AccountDesk],
})
export class PaymentsModule {}
