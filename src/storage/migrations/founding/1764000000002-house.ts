import type { MigrationInterface, QueryRunner } from 'typeorm';
import { type ColumnWord, tableOf } from '../table-of.js';

const texts = (...names: string[]): Record<string, ColumnWord> =>
  Object.fromEntries(names.map((name) => [name, 'text']));

/** The studio's identity and choices, who may sign in, and where each number series stands. */
export class House1764000000002 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.createTable(
      tableOf('studio', {
        columns: {
          version: 'whole',
          ...texts(
            'name',
            'maker',
            'address',
            'country',
            'email',
            'phone',
            'website',
            'currency',
            'zone',
            'locale',
          ),
          ...texts('length_unit', 'cloth_unit'),
          tax_registered: 'yes-no',
          ...texts(
            'tax_number',
            'company_number',
            'tax_category',
            'tax_rate',
            'tax_reason',
            'prices_include',
          ),
          ...texts('quote_series', 'commission_series'),
          quote_days: 'whole',
          ...texts('quote_kind', 'certainty', 'profit_basis', 'profit_share', 'handling_share'),
          minimum_charge: 'minor?',
          ...texts('rush_share', 'rush_on'),
          round_to: 'minor',
          ...texts('deposit_rule', 'deposit_share', 'terms', 'cloth_wording', 'exclusions'),
          fittings_included: 'whole',
          ...texts('overruns', 'sheet', 'accent'),
          keys_on: 'yes-no',
          bare_time: 'text',
          first_run_done: 'text?',
        },
      }),
    );
    await runner.createTable(
      tableOf('account', {
        columns: { version: 'whole', ...texts('name', 'name_folded', 'role', 'passphrase_hash') },
        unique: { ux_account_name: ['name_folded'] },
      }),
    );
    await runner.createTable(
      tableOf('sign_in_session', {
        columns: texts('account_id', 'begun_at', 'seen_at'),
        refers: { account_id: 'account' },
        indexes: { ix_sign_in_session_account: ['account_id'] },
      }),
    );
    await runner.createTable(
      tableOf('api_token', {
        columns: {
          version: 'whole',
          ...texts('account_id', 'name', 'secret_hash', 'made_at'),
          revoked_at: 'text?',
        },
        refers: { account_id: 'account' },
        unique: { ux_api_token_hash: ['secret_hash'] },
      }),
    );
    await runner.createTable(
      tableOf('series', { columns: { version: 'whole', pattern: 'text', last: 'whole' } }),
    );
  }

  async down(runner: QueryRunner): Promise<void> {
    for (const table of ['series', 'api_token', 'sign_in_session', 'account', 'studio'])
      await runner.dropTable(table);
  }
}
