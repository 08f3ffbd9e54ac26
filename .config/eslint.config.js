import reactHooks from 'eslint-plugin-react-hooks';
import tseslint from 'typescript-eslint';
import { arrows } from './arrows.js';
import { ownRules } from './ownRules.js';

const ts = ['**/*.ts', '**/*.tsx'];
const tests = ['tests/**/*.ts', 'tests/**/*.tsx'];

export default tseslint.config(
  { ignores: ['.build/', '.cache/', 'node_modules/', 'fixtures/'] },
  { linterOptions: { reportUnusedDisableDirectives: 'error' } },
  { plugins: { walkback: ownRules }, rules: { 'walkback/reasoned-exceptions': 'error' } },
  {
    files: ts,
    extends: [tseslint.configs.strictTypeChecked],
    languageOptions: {
      parserOptions: {
        // One program for all rooms: the four projects of npm run types keep the runtimes apart, lint need not.
        project: '.config/tsconfig.lint.json',
        tsconfigRootDir: new URL('..', import.meta.url).pathname,
      },
    },
    rules: {
      // Numbers and truth values read the same in a template as everywhere else.
      '@typescript-eslint/restrict-template-expressions': [
        'error',
        { allowNumber: true, allowBoolean: true },
      ],
      // Matters of taste, on which the house has none.
      '@typescript-eslint/no-confusing-void-expression': 'off',
      '@typescript-eslint/no-meaningless-void-operator': 'off',
      '@typescript-eslint/no-invalid-void-type': 'off',
      '@typescript-eslint/no-unnecessary-type-arguments': 'off',
      // Texts are spread by code points on purpose.
      '@typescript-eslint/no-misused-spread': 'off',
      // What a callback or another await has set meanwhile looks constant to the checker.
      '@typescript-eslint/no-unnecessary-condition': 'off',
      // An async function may keep a promise's shape without waiting for anything.
      '@typescript-eslint/require-await': 'off',
      // Type parameters that name a shape once are how the contract is typed.
      '@typescript-eslint/no-unnecessary-type-parameters': 'off',
      '@typescript-eslint/consistent-type-imports': [
        'error',
        { prefer: 'type-imports', disallowTypeAnnotations: false },
      ],
      '@typescript-eslint/switch-exhaustiveness-check': [
        'error',
        { considerDefaultExhaustiveForUnions: true },
      ],
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_', varsIgnorePattern: '^_' }],
      // The house's objects are closures; their methods never look at `this`.
      '@typescript-eslint/unbound-method': 'off',
      eqeqeq: ['error', 'always'],
      'no-control-regex': 'error',
      'no-constant-binary-expression': 'error',
      'no-self-compare': 'error',
      'no-unsafe-finally': 'error',
      'no-fallthrough': 'error',
    },
  },
  {
    files: ['app/window/**/*.tsx', 'app/window/**/*.ts'],
    plugins: { 'react-hooks': reactHooks },
    rules: {
      'react-hooks/rules-of-hooks': 'error',
      'react-hooks/exhaustive-deps': 'error',
      'walkback/words-in-catalogue': 'error',
    },
  },
  {
    files: ['src/**/*.ts', 'app/**/*.ts', 'app/**/*.tsx'],
    ignores: ['src/look/**'],
    rules: { 'walkback/colours-in-tokens': 'error' },
  },
  ...arrows,
  {
    files: tests,
    rules: {
      // Tests hand in what types would keep out, and stand-ins need no promise of their own.
      '@typescript-eslint/no-unsafe-assignment': 'off',
      '@typescript-eslint/no-unsafe-member-access': 'off',
      '@typescript-eslint/no-empty-function': 'off',
    },
  },
);
