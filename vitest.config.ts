import { defineConfig } from 'vitest/config'

export default defineConfig({
  test: {
    restoreMocks: true,
    // Laws run thousands of times; how long that takes is the machine's affair and told by benches, not by tests.
    testTimeout: 120_000,
    unstubGlobals: true,
    projects: [
      {
        extends: true,
        test: {
          name: 'node',
          environment: 'node',
          include: ['{core,electron,tests}/**/*.test.ts'],
        },
      },
      {
        extends: true,
        test: {
          name: 'page',
          environment: 'happy-dom',
          include: ['renderer/**/*.test.{ts,tsx}'],
        },
      },
    ],
  },
})
