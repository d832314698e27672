import { defineConfig } from 'vitest/config';

/** One vitest run for all tests; benchmarks are scripts of their own (`npm run bench`). */
export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    include: ['tests/**/*.test.ts'],
    exclude: ['**/node_modules/**', 'tests/host/**'],
    testTimeout: 60_000,
  },
});
