import { defineConfig } from 'eslint/config';
import tseslint from 'typescript-eslint';

/** What reads the clock, or reads a text as a date in its own way: now is passed in, and src/base/moment.ts parses. */
const clock = [
  { selector: "NewExpression[callee.name='Date'][arguments.length=0]", message: 'Now is passed in.' },
  { selector: "CallExpression[callee.name='Date']", message: 'Now is passed in.' },
  { selector: "MemberExpression[object.name='Date'][property.name='now']", message: 'Now is passed in.' },
];
const dates = [
  { selector: "NewExpression[callee.name='Date'][arguments.length=1] > :matches(Literal[raw=/^['\"]/], TemplateLiteral)", message: 'Parse with src/base/moment.ts.' },
  { selector: "MemberExpression[object.name='Date'][property.name='parse']", message: 'Parse with src/base/moment.ts.' },
  {
    selector: "CallExpression[callee.property.name=/^(slice|substring|substr|split)$/][callee.object.callee.property.name='toISOString']",
    message: 'That is the day in UTC; a day is of a zone (src/base/zone.ts).',
  },
];

/** What only some hosts have; the core must run in all of them. */
const hostGlobals = [
  ...['process', 'Buffer', 'require', 'module', '__dirname', '__filename', 'global', 'setImmediate'],
  ...['window', 'document', 'self', 'location', 'navigator', 'localStorage', 'sessionStorage', 'fetch', 'XMLHttpRequest', 'alert'],
];
const edgeGlobals = ['console', 'setTimeout', 'setInterval', 'clearTimeout', 'clearInterval', 'queueMicrotask', 'requestAnimationFrame', 'performance'];

const core = ['src/{base,csv,schema,domain,records,planner,language,views,acts,exchange,protocol}/**/*.ts'];

export default defineConfig(
  { ignores: ['dist/**', 'coverage/**', '**/node_modules/**', 'test/host/stubs/**'] },
  { linterOptions: { reportUnusedDisableDirectives: 'error' } },
  {
    files: ['**/*.ts', '**/*.mjs'],
    rules: {
      'eqeqeq': 'error',
      'max-lines': ['error', { max: 500 }],
      'no-restricted-syntax': ['error', ...dates],
      'no-var': 'error',
      'object-shorthand': 'error',
      'prefer-const': 'error',
    },
  },
  {
    // The catalogue of texts is a list, and there is one.
    files: ['src/base/messages.ts'],
    rules: { 'max-lines': 'off' },
  },
  {
    files: ['**/*.ts'],
    extends: [tseslint.configs.strictTypeChecked, tseslint.configs.stylisticTypeChecked],
    languageOptions: { parserOptions: { projectService: true } },
    rules: {
      '@typescript-eslint/consistent-type-imports': 'error',
      '@typescript-eslint/dot-notation': ['error', { allowIndexSignaturePropertyAccess: true }],
      '@typescript-eslint/explicit-module-boundary-types': 'error',
      '@typescript-eslint/no-confusing-void-expression': ['error', { ignoreArrowShorthand: true, ignoreVoidReturningFunctions: true }],
      '@typescript-eslint/no-import-type-side-effects': 'error',
      // It asks for `!` where `no-non-null-assertion` forbids it.
      '@typescript-eslint/non-nullable-type-assertion-style': 'off',
      // [...text] is how a text falls into its characters.
      '@typescript-eslint/no-misused-spread': ['error', { allow: [{ from: 'lib', name: 'string' }] }],
      '@typescript-eslint/prefer-readonly': 'error',
      '@typescript-eslint/switch-exhaustiveness-check': ['error', { considerDefaultExhaustiveForUnions: true }],
      // A port may promise what one of its stores has at hand.
      '@typescript-eslint/require-await': 'off',
      // Numbers in texts are what they look like.
      '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true }],
    },
  },
  {
    files: core,
    rules: {
      'no-restricted-globals': ['error', ...hostGlobals, ...edgeGlobals],
      'no-restricted-syntax': ['error', ...dates, ...clock],
    },
  },
  {
    // Runs in Node's host and in the web worker host.
    files: ['src/vscode/**/*.ts'],
    rules: { 'no-restricted-globals': ['error', ...hostGlobals] },
  },
  {
    // What it shows is told by the host, the time too.
    files: ['webview/**/*.ts'],
    rules: { 'no-restricted-syntax': ['error', ...dates, ...clock] },
  },
  {
    files: ['test/**/*.ts'],
    rules: {
      // describe and it of mocha may give promises.
      '@typescript-eslint/no-floating-promises': ['error', { allowForKnownSafeCalls: [{ from: 'package', name: ['describe', 'it'], package: 'mocha' }] }],
    },
  },
);
