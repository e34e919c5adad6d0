import os from 'node:os'
import { configDefaults, defineConfig } from 'vitest/config'
import { LongestFirst } from './tests/support/longest-first.ts'

const withoutDatabase = 'tests/{unit,reference,architecture,web}/**/*.test.{ts,tsx}'
const drift = 'tests/architecture/schema-drift.test.ts'
/** They put a stand-in in the place of a package, so no other file may have loaded it before. */
const replacing = 'tests/unit/accounts/password.test.ts'

/**
 * No test fails because a machine is slow: this only ends one that hangs. A file that waits for something names what it
 * waits for.
 */
const PATIENCE_MS = 900_000
const patient = { testTimeout: PATIENCE_MS, hookTimeout: PATIENCE_MS, expect: { poll: { timeout: PATIENCE_MS / 5 } } }

/**
 * `unit` needs nothing; `product`, all the rest, gets a PostgreSQL of its own (tests/support/global-setup.ts). Files of one
 * worker share what they import, which is most of the product: loading it anew for each took more time than many tests.
 */
export default defineConfig({
  test: {
    maxWorkers: os.availableParallelism(),
    sequence: { sequencer: LongestFirst },
    projects: [
      {
        test: {
          name: 'unit',
          include: [withoutDatabase],
          exclude: [...configDefaults.exclude, drift, replacing],
          isolate: false,
          ...patient,
        },
      },
      { test: { name: 'unit, replacing', include: [replacing], ...patient } },
      {
        test: {
          name: 'product',
          include: ['tests/!(unit|reference|architecture|web)/**/*.test.ts', drift],
          globalSetup: 'tests/support/global-setup.ts',
          setupFiles: 'tests/support/rows/rows-fit.ts',
          isolate: false,
          ...patient,
        },
      },
    ],
  },
})
