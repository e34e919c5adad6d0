import type { FitTime } from './fit/time-fits.ts'
import type { MemoryUse } from './measure/memory.ts'
import type { Summary } from './measure/summary.ts'
import type { PhoneTimes } from './phone/time-phone.ts'
import type { ManningTimes } from './plan/time-manning.ts'
import type { PlanTimes } from './plan/time-plans.ts'
import type { QuestionTimes } from './read/time-reads.ts'
import type { HistoryTimes } from './store/time-histories.ts'

export interface StoreTimes {
  readonly sheets: number
  readonly concurrency: number
  readonly product: Summary
  readonly byHand: Summary
}

export interface Results {
  readonly small: number
  readonly large: number
  readonly readConcurrency: number
  readonly reads: readonly QuestionTimes[]
  readonly stores: readonly StoreTimes[]
  readonly histories: HistoryTimes
  /** Of the server's process before anything was asked of it, and after all reads and stores; by record. */
  readonly memory: readonly {
    readonly sheets: number
    readonly idle: MemoryUse | null
    readonly after: MemoryUse | null
  }[]
  readonly phone: PhoneTimes
  readonly plans: PlanTimes
  readonly manning: ManningTimes
  readonly fits: readonly FitTime[]
  /** Tables in which product and hand-written transactions left other rows, by number of sheets; empty as it should be. */
  readonly differingTables: readonly string[]
}

/** What is aimed at, and what came out. */
export interface Aim {
  readonly text: string
  readonly found: number
  readonly isMet: boolean
}

const LARGEST_GROWTH = 1.5
const LEAST_SHARE = 0.5
const LONGEST_STORE = 3
const LARGEST_GROWTH_BY_HISTORY = 1.2
const LONGEST_TAP_MS = 50
const LONGEST_OPENING_MS = 1_500
const LONGEST_PLAN_MS = 10_000
const LONGEST_FIRST_ANSWER_MS = 2_000
const LARGEST_GAP = 0.01
/** Of processor time. */
const LONGEST_MANNING_SECONDS = 1
/** Seconds of processor time for a fit of so many sheets at most. */
const LONGEST_FITS = [
  { sheets: 6_000, seconds: 3 },
  { sheets: 120_000, seconds: 60 },
]

/** Median of the large record over that of the small one. */
export const growthOf = ({ small, large }: QuestionTimes): number => large.product.p50 / small.product.p50

/** How many times as long as the hand-written transaction a sheet takes. */
export const storeRatioOf = ({ product, byHand }: StoreTimes): number => byHand.perSecond / product.perSecond

/**
 * How many times as long a sheet takes after many than after few, in the median. Processor time says nothing of it: the model of
 * ability is fitted anew in the background meanwhile, to all sheets of the record.
 */
export const historyGrowthOf = ({ withFew, withMany }: HistoryTimes): number => withMany.p50 / withFew.p50

export function aimsOf({ reads, stores, histories, phone, plans, manning, fits }: Results): Aim[] {
  const growth = reads.map((one) => {
    const found = growthOf(one)
    return { text: `${one.name}: grows at most ${LARGEST_GROWTH} times`, found, isMet: found <= LARGEST_GROWTH }
  })
  const shares = reads
    .filter(({ name }) => name.startsWith('failing measures'))
    .map((one) => {
      const found = one.large.product.perSecond / one.large.byHand.perSecond
      return {
        text: `${one.name}: at least ${LEAST_SHARE} of the hand-written rate`,
        found,
        isMet: found >= LEAST_SHARE,
      }
    })
  const times = stores.map((one) => {
    const found = storeRatioOf(one)
    const what = `storing, ${one.sheets.toLocaleString('en')} sheets, ${one.concurrency} at a time`
    return { text: `${what}: within ${LONGEST_STORE} times of by hand`, found, isMet: found <= LONGEST_STORE }
  })
  const grown = historyGrowthOf(histories)
  const ownHistory = {
    text: `storing a soldier's sheet ${histories.many}: at most ${LARGEST_GROWTH_BY_HISTORY} times sheet ${histories.few}`,
    found: grown,
    isMet: grown <= LARGEST_GROWTH_BY_HISTORY,
  }
  const slowed = (what: string, { p95: found }: PhoneTimes['tap'], most: number) => ({
    text: `phone, ${phone.throttle} times slower: ${what} within ${most} ms (p95)`,
    found,
    isMet: found <= most,
  })
  const onPhone = [
    slowed('a tap painted and kept', phone.tap, LONGEST_TAP_MS),
    slowed('a sheet opened without a network', phone.opening, LONGEST_OPENING_MS),
  ]
  const size = `retest plan, ${plans.tests} tests, ${plans.slots} slots`
  const planned = [
    {
      text: `${size}: an answer within ${LONGEST_FIRST_ANSWER_MS} ms`,
      found: plans.first,
      most: LONGEST_FIRST_ANSWER_MS,
    },
    { text: `${size}: solved within ${LONGEST_PLAN_MS} ms`, found: plans.whole, most: LONGEST_PLAN_MS },
    { text: `${size}: every level within ${LARGEST_GAP} of its bound`, found: plans.gap, most: LARGEST_GAP },
  ].map(({ text, found, most }) => ({ text, found, isMet: found <= most }))
  const manned = {
    text: `manning, ${manning.ceremonies} ceremonies of ${manning.posts} posts, ${manning.soldiers} soldiers: ${LONGEST_MANNING_SECONDS} s of processor time`,
    found: manning.cpuSeconds,
    isMet: manning.cpuSeconds <= LONGEST_MANNING_SECONDS,
  }
  const fitted = fits.map(({ sheets, cpuSeconds: found }) => {
    const { seconds } = LONGEST_FITS.find((one) => sheets <= one.sheets) ?? LONGEST_FITS.at(-1)!
    return {
      text: `a fit of ${sheets.toLocaleString('en')} sheets: ${seconds} s of processor time`,
      found,
      isMet: found <= seconds,
    }
  })
  return [...growth, ...shares, ...times, ownHistory, ...onPhone, ...planned, manned, ...fitted].map((aim) => ({
    ...aim,
    found: Math.round(aim.found * 100) / 100,
  }))
}
