import { builtinModules } from 'node:module';
import tseslint from 'typescript-eslint';

const PURE = ['model', 'geometry', 'solver', 'words', 'drawings', 'templates', 'verify'].map(
  (layer) => `src/${layer}/**/*.ts`,
);
const PURE_MESSAGE =
  'Model, geometry, solver, words, drawings, templates and verify are pure: pass it in.';

/** ECMA-262 leaves the last digits of these to the engine; sums, products, quotients and square roots it does not. */
const LEFT_TO_THE_ENGINE = [
  ...['sin', 'cos', 'tan', 'asin', 'acos', 'atan', 'atan2', 'hypot', 'pow', 'cbrt', 'exp', 'expm1'],
  ...['log', 'log2', 'log10', 'log1p', 'sinh', 'cosh', 'tanh', 'asinh', 'acosh', 'atanh'],
];
const SAME_MESSAGE = 'An answer must be the same in every engine: see src/model/trig.ts.';
const SAME_PROPERTIES = [
  ...LEFT_TO_THE_ENGINE.map((property) => ({ object: 'Math', property, message: SAME_MESSAGE })),
  ...['localeCompare', 'toLocaleString', 'toLocaleUpperCase', 'toLocaleLowerCase'].map(
    (property) => ({
      property,
      message: SAME_MESSAGE,
    }),
  ),
];
const SAME_SYNTAX = [
  {
    selector: ':matches(BinaryExpression[operator="**"], AssignmentExpression[operator="**="])',
    message: SAME_MESSAGE,
  },
  // Taken by another name, it would pass unseen.
  { selector: 'VariableDeclarator[init.name="Math"]', message: SAME_MESSAGE },
];
/** A list of a hundred thousand overflows the stack; bays of 300 by 300 parts have as many rules. */
const LONG_LIST = {
  selector:
    'CallExpression[callee.object.name="Math"][callee.property.name=/^(min|max)$/] > SpreadElement',
  message: 'A list may be long: minOf and maxOf of src/model/extremes.ts.',
};
const EXPORT_BY_NAME = { selector: 'ExportDefaultDeclaration', message: 'Export by name.' };

/** Globals that read or change the world outside, or the clock. */
const IMPURE_GLOBALS = [
  'process',
  'Buffer',
  'console',
  'performance',
  'Date',
  'setTimeout',
  'setInterval',
  'setImmediate',
  'clearTimeout',
  'clearInterval',
  'clearImmediate',
  'fetch',
  'crypto',
  'navigator',
  'require',
  'global',
  'globalThis',
  '__dirname',
  '__filename',
];

export default tseslint.config(
  { ignores: ['dist/', 'coverage/', 'node_modules/'] },
  {
    files: ['**/*.ts'],
    extends: [tseslint.configs.recommendedTypeChecked],
    languageOptions: {
      parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname },
    },
    rules: {
      eqeqeq: 'error',
      'no-self-compare': 'error',
      'no-template-curly-in-string': 'error',
      '@typescript-eslint/consistent-type-imports': 'error',
      '@typescript-eslint/switch-exhaustiveness-check': [
        'error',
        { considerDefaultExhaustiveForUnions: true },
      ],
      // An interface that promises is sometimes met by a function that has nothing to wait for.
      '@typescript-eslint/require-await': 'off',
      // An index known to be in range is written with `!`: noUncheckedIndexedAccess asks for it.
      '@typescript-eslint/no-non-null-assertion': 'off',
      '@typescript-eslint/no-unused-vars': [
        'error',
        { argsIgnorePattern: '^_', varsIgnorePattern: '^_', ignoreRestSiblings: true },
      ],
      '@typescript-eslint/restrict-template-expressions': [
        'error',
        { allowNumber: true, allowBoolean: true },
      ],
    },
  },
  {
    files: ['src/**/*.ts'],
    rules: { 'no-restricted-syntax': ['error', EXPORT_BY_NAME, LONG_LIST] },
  },
  {
    files: ['src/cli/**/*.ts'],
    rules: {
      'no-restricted-properties': ['error', ...SAME_PROPERTIES],
      'no-restricted-syntax': ['error', EXPORT_BY_NAME, LONG_LIST, ...SAME_SYNTAX],
    },
  },
  {
    files: PURE,
    rules: {
      'no-restricted-globals': [
        'error',
        ...IMPURE_GLOBALS.map((name) => ({ name, message: PURE_MESSAGE })),
        { name: 'Intl', message: SAME_MESSAGE },
      ],
      'no-restricted-properties': [
        'error',
        { object: 'Math', property: 'random', message: 'An answer must be repeatable.' },
        ...SAME_PROPERTIES,
      ],
      'no-restricted-imports': [
        'error',
        {
          paths: builtinModules.map((name) => ({ name, message: PURE_MESSAGE })),
          patterns: [{ group: ['node:*'], message: PURE_MESSAGE }],
        },
      ],
      'no-restricted-syntax': [
        'error',
        EXPORT_BY_NAME,
        LONG_LIST,
        { selector: 'MetaProperty', message: PURE_MESSAGE },
        ...SAME_SYNTAX,
      ],
    },
  },
  {
    files: ['**/*.{js,mjs}'],
    extends: [tseslint.configs.base],
    rules: {
      eqeqeq: 'error',
      'no-unused-vars': 'error',
      'no-var': 'error',
      'prefer-const': 'error',
    },
  },
);
