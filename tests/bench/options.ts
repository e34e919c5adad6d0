import { parseArgs } from 'node:util'
import type { FitPlan } from './fit/time-fits.ts'
import type { PhonePlan } from './phone/time-phone.ts'
import type { RecordSize } from './record-size.ts'

export interface Plan {
  readonly small: RecordSize
  readonly large: RecordSize
  readonly reads: { readonly rounds: number; readonly milliseconds: number; readonly warmUp: number }
  readonly stores: { readonly rounds: number; readonly sheetsARound: number }
  /** Two records of as many soldiers, tested as often, for a short and for a long time. */
  readonly histories: { readonly few: RecordSize; readonly many: RecordSize }
  readonly phone: PhonePlan
  readonly fits: FitPlan
}

export interface Options {
  readonly help: boolean
  readonly plan: Plan
  /** One record of many soldiers instead, and what is asked of it by whoever sees everything; null: no. */
  readonly million: RecordSize | null
  /** File for the results as JSON; null: none. */
  readonly json: string | null
}

export const HELP = `npm run bench -- [--quick | --million [--sheets N]] [--json FILE]

Fills two scratch databases, of 5,000 and of 100,000 sheets, in a PostgreSQL of its own, and times the product on them
next to hand-written SQL: reads over HTTP, and sheets stored a second. Then it grades on a phone's screen in Chromium,
without a network and at a fourth of this machine's speed, and fits the model of ability to as many sheets. Talks to this machine only and leaves nothing behind.

  --quick      1,000 and 5,000 sheets and short turns: to see that it runs, not for figures
  --million    instead one record of 1,000,000 sheets of 200,000 soldiers: what the office asks over everything, storing, a
               ceremony of 400 posts, backup and restore, memory, and failing measures beside DuckDB. Wants 40 GB of disk
  --sheets N   with --million: so many sheets, of a fifth as many soldiers
  --json FILE  the results as JSON too`

const FULL: Plan = {
  small: { sheets: 5_000, battalions: 1, years: 2 },
  large: { sheets: 100_000, battalions: 4, years: 10 },
  reads: { rounds: 4, milliseconds: 1_000, warmUp: 1_000 },
  stores: { rounds: 3, sheetsARound: 60 },
  histories: { few: { sheets: 1_500, battalions: 1, years: 0.25 }, many: { sheets: 12_000, battalions: 1, years: 2 } },
  phone: { openings: 10, taps: 20, sheets: 20 },
  fits: { sheets: [5_000, 100_000] },
}

const QUICK: Plan = {
  small: { sheets: 1_000, battalions: 1, years: 1 },
  large: { sheets: 5_000, battalions: 2, years: 3 },
  reads: { rounds: 2, milliseconds: 300, warmUp: 300 },
  stores: { rounds: 2, sheetsARound: 20 },
  histories: { few: { sheets: 1_500, battalions: 1, years: 0.25 }, many: { sheets: 3_000, battalions: 1, years: 0.5 } },
  phone: { openings: 2, taps: 5, sheets: 2 },
  fits: { sheets: [1_000, 5_000] },
}

/** Reads the command line. Throws an Error that says what is wrong with it. */
export function readOptions(args: readonly string[]): Options {
  const { values } = parseArgs({
    args: [...args],
    options: {
      quick: { type: 'boolean' },
      million: { type: 'boolean' },
      sheets: { type: 'string' },
      json: { type: 'string' },
      help: { type: 'boolean', short: 'h' },
    },
  })
  if (values.sheets !== undefined && !values.million) throw new Error('--sheets goes with --million.')
  const million = values.million ? sizeOf(values.sheets ?? '1000000') : null
  return { help: values.help ?? false, plan: values.quick ? QUICK : FULL, million, json: values.json ?? null }
}

/** Five sheets a soldier over three years: a first test and what comes of it. */
function sizeOf(sheets: string): RecordSize {
  const count = Number(sheets)
  if (!Number.isInteger(count) || count < 1_500) throw new Error('--sheets takes a whole number from 1500 on.')
  return { sheets: count, battalions: Math.round(count / 5 / 300), years: 3 }
}
