import tseslint from 'typescript-eslint';
import { rooms } from './scripts/rooms.mjs';

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
  { files: ['**/*.cjs'], rules: { '@typescript-eslint/no-require-imports': 'off' } },
  { files: ['test/**/*.ts'], rules: { '@typescript-eslint/no-unused-expressions': 'off' } },
);
