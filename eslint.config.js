import tseslint from 'typescript-eslint';
import { deciding, rooms } from './scripts/rooms.mjs';

const quiet = { '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_', varsIgnorePattern: '^_' }] };

const typed = {
  // A promise that nobody awaits fails where nobody sees it.
  '@typescript-eslint/no-floating-promises': 'error',
  '@typescript-eslint/no-misused-promises': 'error',
  '@typescript-eslint/await-thenable': 'error',
  '@typescript-eslint/return-await': 'error',
  '@typescript-eslint/only-throw-error': 'error',
  '@typescript-eslint/prefer-promise-reject-errors': 'error',
  // A new kind or code must be met wherever kinds and codes are told apart.
  '@typescript-eslint/switch-exhaustiveness-check': ['error', { considerDefaultExhaustiveForUnions: false }],
  // What the types already say needs no second word, and what they do not say needs none against them.
  '@typescript-eslint/no-unnecessary-condition': 'error',
  '@typescript-eslint/no-unnecessary-type-assertion': 'error',
  '@typescript-eslint/no-unnecessary-boolean-literal-compare': 'error',
  '@typescript-eslint/no-unnecessary-type-arguments': 'error',
  '@typescript-eslint/no-unnecessary-template-expression': 'error',
  '@typescript-eslint/no-redundant-type-constituents': 'error',
  '@typescript-eslint/no-unsafe-argument': 'error',
  '@typescript-eslint/no-unsafe-assignment': 'error',
  '@typescript-eslint/no-unsafe-call': 'error',
  '@typescript-eslint/no-unsafe-member-access': 'error',
  '@typescript-eslint/no-unsafe-return': 'error',
  '@typescript-eslint/no-base-to-string': 'error',
  '@typescript-eslint/restrict-plus-operands': 'error',
  '@typescript-eslint/require-array-sort-compare': ['error', { ignoreStringArrays: true }],
  '@typescript-eslint/unbound-method': 'error',
  '@typescript-eslint/prefer-nullish-coalescing': 'error',
  '@typescript-eslint/prefer-optional-chain': 'error',
  '@typescript-eslint/no-deprecated': 'error',
  'max-lines-per-function': ['error', { max: 60 }],
};

/** The rooms whose numbers stand in a record or a chart. */
const computing = [...deciding, 'charts'];

/** A square and a root are exact everywhere, and so is a power of two that is written down. */
const alike = ':not([right.value=2]):not([right.value=0.5]):not([left.value=2][right.type="Literal"])';
const useOurs = 'The last digit differs from one engine to the next: use powerOf or tenTo of numbers/power.ts.';
const unlike = [
  { selector: `BinaryExpression[operator="**"]${alike}`, message: useOurs },
  { selector: 'AssignmentExpression[operator="**="]', message: useOurs },
  { selector: 'MemberExpression[object.name="Math"][property.name="pow"]', message: useOurs },
  {
    selector:
      'MemberExpression[object.name="Math"][property.name=/^(exp|expm1|log|log1p|log2|log10|sin|cos|tan|asin|acos|atan2)$/]',
    message:
      'The last digit differs from one engine to the next: use the function of src/numbers by the same name and "Of".',
  },
  {
    selector: 'MemberExpression[object.name="Math"][property.name=/^(atan|sinh|cosh|tanh|asinh|acosh|atanh|cbrt)$/]',
    message: 'The last digit differs from one engine to the next: write it by the functions of src/numbers.',
  },
];

export default tseslint.config(
  { ignores: ['dist/', 'out/', 'node_modules/', 'samples/', 'test/**/fixtures/', 'scripts/wasm/'] },
  ...tseslint.configs.recommended,
  {
    rules: { ...quiet, '@typescript-eslint/no-explicit-any': 'error', eqeqeq: ['error', 'always', { null: 'ignore' }] },
  },
  {
    files: ['src/**/*.ts'],
    languageOptions: { parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname } },
    rules: typed,
  },
  // Loops that are unrolled for speed.
  { files: ['src/signal/{radix8,pairEnds8,welchKernel}.ts'], rules: { 'max-lines-per-function': 'off' } },
  ...Object.entries(rooms)
    .filter(([, { ambient }]) => !ambient.includes('vscode'))
    .map(([room]) => ({
      // An empty `types` list alone does not stop `import 'vscode'` from compiling.
      files: [`src/${room}/**/*.ts`],
      rules: { 'no-restricted-imports': ['error', { paths: ['vscode'] }] },
    })),
  {
    // Engines differ in the last digit of these: results are the same in each of them.
    files: computing.map((room) => `src/${room}/**/*.ts`),
    rules: { 'no-restricted-syntax': ['error', ...unlike] },
  },
  { files: ['**/*.cjs'], rules: { '@typescript-eslint/no-require-imports': 'off' } },
  { files: ['test/**/*.ts'], rules: { '@typescript-eslint/no-unused-expressions': 'off' } },
);
