import { defineConfig } from 'vitest/config';

/** One vitest run for all tests; benchmarks are asked for by name (`npm run bench`). */
export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    include: ['tests/**/*.test.ts'],
    exclude: ['**/node_modules/**', 'tests/host/**'],
    benchmark: { include: ['tests/bench/**/*.bench.ts'] },
    testTimeout: 60_000,
  },
});
