import { Money } from '../../../../src/domain/kernel/money.js';
import {
  type Account,
  type AccountHistory,
  type AccountPaper,
  type Allocated,
  accountOf,
  type Payment,
} from '../../../../src/domain/papers/settlement/account.js';

export const eur = (minor: number): Money => Money.ofMinor(minor, 'EUR');
export const paper = (id: string, minor: number, more: Partial<AccountPaper> = {}): AccountPaper => ({
  id,
  kind: 'invoice',
  number: id.toUpperCase(),
  issued: '2026-03-02',
  due: '2026-03-16',
  commissionId: undefined,
  total: eur(minor),
  mends: [],
  ...more,
});
export const payment = (id: string, minor: number, more: Partial<Payment> = {}): Payment => ({
  id,
  kind: 'payment',
  on: '2026-03-10',
  amount: eur(minor),
  commissionId: undefined,
  reversedOn: undefined,
  ...more,
});
export const history = (
  papers: AccountPaper[],
  payments: Payment[] = [],
  allocations: Allocated[] = [],
): AccountHistory => ({ papers, payments, allocations });
export const stand = (of: AccountHistory): Account => accountOf(of, 'EUR');
