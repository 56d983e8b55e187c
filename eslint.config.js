import tseslint from 'typescript-eslint';
import { rooms } from './scripts/rooms.mjs';

const quiet = { '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_', varsIgnorePattern: '^_' }] };

export default tseslint.config(
  { ignores: ['dist/', 'out/', 'node_modules/', 'samples/', 'test/**/fixtures/', 'scripts/wasm/'] },
  ...tseslint.configs.recommended,
  {
    rules: { ...quiet, '@typescript-eslint/no-explicit-any': 'error', eqeqeq: ['error', 'always', { null: 'ignore' }] },
  },
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
