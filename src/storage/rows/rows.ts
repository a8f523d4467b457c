import { ActRow } from '../history/act.row.js';
import { ChangeRow } from '../history/change.row.js';
import { OnceRow } from '../history/once.row.js';
import { ClientRow } from './clients/client.row.js';
import { AccountRow } from './house/account.row.js';
import { ApiTokenRow } from './house/api-token.row.js';
import { SeriesRow } from './house/series.row.js';
import { SignInSessionRow } from './house/sign-in-session.row.js';
import { StudioRow } from './house/studio.row.js';

/** Every table of the studio's data. */
export const rows = [
  ActRow,
  ChangeRow,
  OnceRow,
  StudioRow,
  AccountRow,
  SignInSessionRow,
  ApiTokenRow,
  SeriesRow,
  ClientRow,
];
