import tseslint from 'typescript-eslint';

// Biome formats and lints; here are only the rules that need types (promises), and the bans of the house.

const clock = [
  {
    selector: "NewExpression[callee.name='Date'][arguments.length=0]",
    message: 'Ask the clock that was handed in: only src/**/clock.ts reads the time.',
  },
  {
    selector: "CallExpression[callee.name='Date']",
    message: 'Ask the clock that was handed in: only src/**/clock.ts reads the time.',
  },
  {
    selector: "MemberExpression[object.name='Date'][property.name='now']",
    message: 'Ask the clock that was handed in: only src/**/clock.ts reads the time.',
  },
  {
    selector: "MemberExpression[object.name='Temporal'][property.name='Now']",
    message: 'Ask the clock that was handed in: only src/**/clock.ts reads the time.',
  },
];
const chance = [
  {
    selector: "MemberExpression[object.name='Math'][property.name='random']",
    message: 'Chance is handed in as a seeded source of draws, so that an answer can be given twice.',
  },
];
const rounding = [
  {
    selector: "MemberExpression[object.name='Math'][property.name=/^(round|fround)$/]",
    message: 'Math.round rounds -0.5 up and 1.005 down. Round a Decimal, and name the rounding.',
  },
  {
    selector:
      ":matches(CallExpression[callee.name='parseFloat'], MemberExpression[property.name='parseFloat'])",
    message: 'parseFloat takes "12 yards" for 12. Read the text by the rules of its unit.',
  },
];
const floats = [
  {
    selector:
      "MemberExpression[object.name='Math'][property.name=/^(exp|expm1|log|log1p|log2|log10|sqrt|cbrt|pow|hypot|sin|cos|tan|atan|atan2)$/]",
    message: 'Binary fractions live only in src/domain/estimating. Here use a Decimal.',
  },
];
const unfinishedTests = [
  {
    selector:
      'MemberExpression[object.name=/^(it|test|describe)$/][property.name=/^(only|skip|todo|fails)$/]',
    message:
      'A test runs, always. Where a machine may lack something, use skipIf with a condition that is said aloud.',
  },
];

const ban = (...lists) => ({ 'no-restricted-syntax': ['error', ...lists.flat()] });

export default tseslint.config(
  {
    ignores: [
      'dist/**',
      'node_modules/**',
      '.cache/**',
      'data/**',
      'templates/**',
      '**/*.{mjs,cjs,js}',
      '**/*.d.mts',
    ],
  },
  {
    files: ['**/*.ts'],
    languageOptions: {
      parser: tseslint.parser,
      parserOptions: { project: './tsconfig.json', tsconfigRootDir: import.meta.dirname },
    },
    plugins: { '@typescript-eslint': tseslint.plugin },
    rules: {
      '@typescript-eslint/no-floating-promises': 'error',
      '@typescript-eslint/no-misused-promises': 'error',
      '@typescript-eslint/await-thenable': 'error',
      '@typescript-eslint/require-await': 'off',
    },
  },
  { files: ['src/**/*.ts'], rules: ban(clock, chance, rounding) },
  {
    files: ['src/domain/**/*.ts'],
    rules: {
      ...ban(clock, chance, rounding, floats),
      'no-restricted-globals': [
        'error',
        ...[
          'process',
          'console',
          'crypto',
          'performance',
          'fetch',
          'setTimeout',
          'setInterval',
          'setImmediate',
        ].map((name) => ({
          name,
          message: 'The domain reaches for nothing outside; take it as a parameter.',
        })),
      ],
    },
  },
  { files: ['src/domain/estimating/**/*.ts'], rules: ban(clock, chance, rounding) },
  { files: ['src/**/clock.ts'], rules: ban(chance, rounding) },
  { files: ['test/**/*.ts'], rules: ban(clock, chance, unfinishedTests) },
);
