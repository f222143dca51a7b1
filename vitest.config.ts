import { defineConfig } from 'vitest/config'

export default defineConfig({
  test: {
    restoreMocks: true,
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
