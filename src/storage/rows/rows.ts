import { ActRow } from '../history/act.row.js';
import { ChangeRow } from '../history/change.row.js';
import { OnceRow } from '../history/once.row.js';
import { BenchEntryRow } from './bench/bench-entry.row.js';
import { ExtraRow } from './bench/extra.row.js';
import { PersonRow } from './bench/person.row.js';
import { RunningClockRow } from './bench/running-clock.row.js';
import { ClosedDayRow } from './beside/closed-day.row.js';
import { CounterTicketRow } from './beside/counter-ticket.row.js';
import { EnquiryRow } from './beside/enquiry.row.js';
import { MovedPromiseRow } from './beside/moved-promise.row.js';
import { OutworkTicketRow } from './beside/outwork-ticket.row.js';
import { OutworkerRow } from './beside/outworker.row.js';
import { BodyDimensionRow } from './clients/body-dimension.row.js';
import { ClientRow } from './clients/client.row.js';
import { ClientKeepingRow } from './clients/client-keeping.row.js';
import { ClientPaperRow } from './clients/client-paper.row.js';
import { MeasuredValueRow } from './clients/measured-value.row.js';
import { MeasurementSetRow } from './clients/measurement-set.row.js';
import { LotRow } from './cloth-room/lot.row.js';
import { MaterialRow } from './cloth-room/material.row.js';
import { PurchaseRow } from './cloth-room/purchase.row.js';
import { ReservationRow } from './cloth-room/reservation.row.js';
import { ShoppingTickRow } from './cloth-room/shopping-tick.row.js';
import { StockEntryRow } from './cloth-room/stock-entry.row.js';
import { StockPartRow } from './cloth-room/stock-part.row.js';
import { SupplierRow } from './cloth-room/supplier.row.js';
import { ThreadRatioRow } from './cloth-room/thread-ratio.row.js';
import { CommissionRow } from './commissions/commission.row.js';
import { ExpenseLineRow } from './commissions/expense-line.row.js';
import { GarmentRow } from './commissions/garment.row.js';
import { GarmentMarkRow } from './commissions/garment-mark.row.js';
import { MaterialLineRow } from './commissions/material-line.row.js';
import { OperationRow } from './commissions/operation.row.js';
import { CalendarKeyRow } from './fitting/calendar-key.row.js';
import { CorrectionRow } from './fitting/correction.row.js';
import { FittingRow } from './fitting/fitting.row.js';
import { FittingGarmentRow } from './fitting/fitting-garment.row.js';
import { PatternRow } from './fitting/pattern.row.js';
import { PatternUseRow } from './fitting/pattern-use.row.js';
import { PhotoRow } from './fitting/photo.row.js';
import { PhotoPictureRow } from './fitting/photo-picture.row.js';
import { PhotoRuleRow } from './fitting/photo-rule.row.js';
import { AccountRow } from './house/account.row.js';
import { ApiTokenRow } from './house/api-token.row.js';
import { KeepingRuleRow } from './house/keeping-rule.row.js';
import { PairedPhoneRow } from './house/paired-phone.row.js';
import { PairingCodeRow } from './house/pairing-code.row.js';
import { PaperChoiceRow } from './house/paper-choice.row.js';
import { SeriesRow } from './house/series.row.js';
import { SignInSessionRow } from './house/sign-in-session.row.js';
import { StudioRow } from './house/studio.row.js';
import { StudioMarkRow } from './house/studio-mark.row.js';
import { OwnGuessRow } from './lessons/own-guess.row.js';
import { PastGarmentRow } from './lessons/past-garment.row.js';
import { PastWorkRow } from './lessons/past-work.row.js';
import { GarmentTypeRow } from './making/garment-type.row.js';
import { KnownOperationRow } from './making/known-operation.row.js';
import { MoneyOutRow } from './money-out/money-out.row.js';
import { PaidOutRow } from './money-out/paid-out.row.js';
import { InvoiceRow } from './papers/invoice.row.js';
import { InvoiceCiteRow } from './papers/invoice-cite.row.js';
import { InvoiceDraftRow } from './papers/invoice-draft.row.js';
import { InvoicePdfRow } from './papers/invoice-pdf.row.js';
import { IssuedQuoteRow } from './papers/issued-quote.row.js';
import { PaperSentRow } from './papers/paper-sent.row.js';
import { QuoteAnswerRow } from './papers/quote-answer.row.js';
import { QuoteDraftRow } from './papers/quote-draft.row.js';
import { QuotePdfRow } from './papers/quote-pdf.row.js';
import { AllocationRow } from './payments/allocation.row.js';
import { BankImportRow } from './payments/bank-import.row.js';
import { BankLineRow } from './payments/bank-line.row.js';
import { PaymentRow } from './payments/payment.row.js';
import { ReceiptRow } from './payments/receipt.row.js';
import { ReceiptPdfRow } from './payments/receipt-pdf.row.js';
import { ReminderRow } from './payments/reminder.row.js';
import { ReminderPdfRow } from './payments/reminder-pdf.row.js';
import { RateCardRow } from './rates/rate-card.row.js';
import { StandingPriceRow } from './rates/standing-price.row.js';

/** Every table of the studio's data. */
export const rows = [
  ActRow,
  ChangeRow,
  OnceRow,
  StudioRow,
  PaperChoiceRow,
  StudioMarkRow,
  AccountRow,
  SignInSessionRow,
  ApiTokenRow,
  SeriesRow,
  ClientRow,
  ClientPaperRow,
  BodyDimensionRow,
  MeasurementSetRow,
  MeasuredValueRow,
  GarmentTypeRow,
  KnownOperationRow,
  RateCardRow,
  StandingPriceRow,
  OwnGuessRow,
  PastGarmentRow,
  CommissionRow,
  GarmentRow,
  OperationRow,
  MaterialLineRow,
  ExpenseLineRow,
  IssuedQuoteRow,
  QuotePdfRow,
  QuoteAnswerRow,
  QuoteDraftRow,
  InvoiceRow,
  InvoicePdfRow,
  InvoiceCiteRow,
  InvoiceDraftRow,
  PaperSentRow,
  SupplierRow,
  MaterialRow,
  PurchaseRow,
  LotRow,
  StockEntryRow,
  StockPartRow,
  ReservationRow,
  ShoppingTickRow,
  ThreadRatioRow,
  PersonRow,
  PairedPhoneRow,
  PairingCodeRow,
  BenchEntryRow,
  RunningClockRow,
  GarmentMarkRow,
  ExtraRow,
  PaymentRow,
  AllocationRow,
  ReceiptRow,
  ReceiptPdfRow,
  ReminderRow,
  ReminderPdfRow,
  BankImportRow,
  BankLineRow,
  FittingRow,
  FittingGarmentRow,
  CorrectionRow,
  PhotoRow,
  PhotoPictureRow,
  PhotoRuleRow,
  PatternRow,
  PatternUseRow,
  CalendarKeyRow,
  OutworkerRow,
  OutworkTicketRow,
  MoneyOutRow,
  PaidOutRow,
  EnquiryRow,
  CounterTicketRow,
  ClosedDayRow,
  MovedPromiseRow,
  PastWorkRow,
  ClientKeepingRow,
  KeepingRuleRow,
];
