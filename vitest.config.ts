import { configDefaults, defineConfig } from 'vitest/config'

const withoutDatabase = 'tests/{unit,reference,architecture,web}/**/*.test.{ts,tsx}'
const drift = 'tests/architecture/schema-drift.test.ts'

/** `unit` needs nothing; `product`, all the rest, gets a PostgreSQL of its own (tests/support/global-setup.ts). */
export default defineConfig({
  test: {
    maxWorkers: 2,
    projects: [
      {
        test: {
          name: 'unit',
          include: [withoutDatabase],
          exclude: [...configDefaults.exclude, drift],
          testTimeout: 120_000,
        },
      },
      {
        test: {
          name: 'product',
          include: ['tests/!(unit|reference|architecture|web)/**/*.test.ts', drift],
          globalSetup: 'tests/support/global-setup.ts',
          testTimeout: 120_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
})
