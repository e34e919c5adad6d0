import { parseArgs } from 'node:util'
import type { FitPlan } from './fit/time-fits.ts'
import type { PhonePlan } from './phone/time-phone.ts'
import type { RecordSize } from './record-size.ts'

export interface Plan {
  readonly small: RecordSize
  readonly large: RecordSize
  readonly reads: { readonly rounds: number; readonly milliseconds: number; readonly warmUp: number }
  readonly stores: { readonly rounds: number; readonly sheetsARound: number }
  readonly phone: PhonePlan
  readonly fits: FitPlan
}

export interface Options {
  readonly help: boolean
  readonly plan: Plan
  /** File for the results as JSON; null: none. */
  readonly json: string | null
}

export const HELP = `npm run bench -- [--quick] [--json FILE]

Fills two scratch databases, of 5,000 and of 100,000 sheets, in a PostgreSQL of its own, and times the product on them
next to hand-written SQL: reads over HTTP, and sheets stored a second. Then it grades on a phone's screen in Chromium,
without a network and at a fourth of this machine's speed, and fits the model of ability to as many sheets. Talks to this machine only and leaves nothing behind.

  --quick      1,000 and 5,000 sheets and short turns: to see that it runs, not for figures
  --json FILE  the results as JSON too`

const FULL: Plan = {
  small: { sheets: 5_000, battalions: 1, years: 2 },
  large: { sheets: 100_000, battalions: 4, years: 10 },
  reads: { rounds: 4, milliseconds: 1_000, warmUp: 1_000 },
  stores: { rounds: 3, sheetsARound: 60 },
  phone: { openings: 10, taps: 20, sheets: 20 },
  fits: { sheets: [5_000, 100_000] },
}

const QUICK: Plan = {
  small: { sheets: 1_000, battalions: 1, years: 1 },
  large: { sheets: 5_000, battalions: 2, years: 3 },
  reads: { rounds: 2, milliseconds: 300, warmUp: 300 },
  stores: { rounds: 2, sheetsARound: 20 },
  phone: { openings: 2, taps: 5, sheets: 2 },
  fits: { sheets: [1_000, 5_000] },
}

/** Reads the command line. Throws an Error that says what is wrong with it. */
export function readOptions(args: readonly string[]): Options {
  const { values } = parseArgs({
    args: [...args],
    options: { quick: { type: 'boolean' }, json: { type: 'string' }, help: { type: 'boolean', short: 'h' } },
  })
  return { help: values.help ?? false, plan: values.quick ? QUICK : FULL, json: values.json ?? null }
}
