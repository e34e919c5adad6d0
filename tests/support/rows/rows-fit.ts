import { afterAll, afterEach } from 'vitest'
import { takeMisfits } from './watch-rows.ts'

/** Fails the test in which a raw query was answered with rows that are not what its type says. */
function rowsFit(): void {
  const misfits = takeMisfits()
  if (misfits.length > 0) throw new Error(`Rows are not what the type of their query says:\n${misfits.join('\n')}`)
}

afterEach(rowsFit)
afterAll(rowsFit)
