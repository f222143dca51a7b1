import { defineConfig } from 'vitest/config'

export default defineConfig({
  test: {
    restoreMocks: true,
    include: ['{core,electron,renderer,tests}/**/*.test.{ts,tsx}'],
  },
})
