import { createHash } from 'node:crypto'
import type { Context } from '../../context/context.ts'
import type { StandardVersion } from '../../db/catalogue.db.ts'
import type { CandidateHistory, CountedTest } from '../../domain/ability/candidate-history.ts'
import { type MeasureLayout, measureLayout } from '../../domain/ability/measure-layout.ts'
import { pastForecasts } from '../../domain/ability/past-forecasts.ts'
import { quarterOf, quartersBetween } from '../../domain/ability/quarter.ts'
import { fitUnit, MODEL_VERSION, type UnitFit } from '../../domain/ability/unit-fit.ts'
import { listFits, type StoredFit, storeFit } from '../db/fits.db.ts'
import { readHistories } from '../db/histories.db.ts'
import { listForecastPrints, storePastForecasts } from '../db/past-forecasts.db.ts'

type Work = Pick<Context, 'db' | 'clock' | 'catalogue'>

/** So many forecasts go into one statement. */
const TOGETHER = 1_000

/**
 * Brings the stored fits and the forecasts of past tests up to date with the sheets. Only what rests on something that has
 * changed is made anew. Takes seconds to minutes: for a worker, never for a request. Out: how many fits were made.
 */
export async function refreshFits(context: Work): Promise<number> {
  const { standards } = await context.catalogue.current(context.db)
  let made = 0
  for (const versions of standards.values()) made += await refreshStandard(context, versions)
  return made
}

async function refreshStandard(context: Work, all: readonly StandardVersion[]): Promise<number> {
  const versions = all.filter(({ publishedAt }) => publishedAt !== null)
  const standardId = versions[0]?.standardId
  if (standardId === undefined) return 0
  const histories = await readHistories(context.db, standardId)
  const layout = measureLayout(versions)
  const ground = `${MODEL_VERSION} ${JSON.stringify(layout.strengthOf)}`
  const prints = fingerprints(ground, histories, context.clock().toISOString().slice(0, 10))
  const stored = new Map((await listFits(context.db, standardId)).map((one) => [one.before, one]))
  const fits = new Map<string | null, StoredFit>()
  let made = 0
  // From the earliest on, so that each begins where the one before it ended; the present one comes first of all, for it is asked for.
  for (const before of [null, ...prints.quarters]) {
    const fingerprint = prints.before(before)
    const kept = stored.get(before)
    if (kept?.fingerprint === fingerprint) {
      fits.set(before, kept)
      continue
    }
    const same = [...fits.values()].find((one) => one.fingerprint === fingerprint)
    if (same) {
      // Nothing came between: the same tests give the same fit.
      fits.set(before, { ...same, before })
      await storeFit(context.db, standardId, fits.get(before)!)
      continue
    }
    const start = (kept ?? lastOf(fits))?.fit
    const fresh = await fitAndStore(context, standardId, layout, histories, before, fingerprint, start)
    fits.set(before, fresh)
    made += 1
  }
  await refreshForecasts(context, standardId, layout, histories, fits)
  return made
}

const lastOf = (fits: ReadonlyMap<string | null, StoredFit>): StoredFit | undefined => [...fits.values()].at(-1)

async function fitAndStore(
  { db, clock }: Work,
  standardId: string,
  layout: MeasureLayout,
  histories: readonly CandidateHistory[],
  before: string | null,
  fingerprint: string,
  start: UnitFit | undefined,
): Promise<StoredFit> {
  const fit = fitUnit(layout, histories, before, start)
  const days = histories.flatMap(({ tests }) => tests.map(({ day }) => day)).filter((day) => !before || day < before)
  const through = days.reduce<string | null>((last, day) => (last === null || day > last ? day : last), null)
  const stored = { before, fingerprint, fittedAt: clock(), through, fit }
  await storeFit(db, standardId, stored)
  return stored
}

async function refreshForecasts(
  { db }: Work,
  standardId: string,
  layout: MeasureLayout,
  histories: readonly CandidateHistory[],
  fits: ReadonlyMap<string | null, StoredFit>,
): Promise<void> {
  const known = await listForecastPrints(db, standardId)
  const prints = new Map<string, string>()
  for (const history of histories) {
    const own = createHash('sha256').update(JSON.stringify(history.others))
    let lastDay = ''
    let until = own.copy().digest('base64')
    for (const test of history.tests) {
      if (test.day !== lastDay) until = own.copy().digest('base64')
      lastDay = test.day
      const quarter = fits.get(quarterOf(test.day))!.fingerprint
      prints.set(
        test.id,
        createHash('sha256').update(`${quarter} ${until} ${test.day} ${test.version}`).digest('base64'),
      )
      own.update(textOf(test))
    }
  }
  const isStale = ({ id }: CountedTest) => known.get(id) !== prints.get(id)
  if (!histories.some(({ tests }) => tests.some(isStale))) return
  const forecasts = pastForecasts(layout, histories, (quarter) => fits.get(quarter)!.fit, isStale)
  for (let at = 0; at < forecasts.length; at += TOGETHER) {
    const some = forecasts.slice(at, at + TOGETHER)
    await storePastForecasts(
      db,
      some.map((one) => ({ ...one, fingerprint: prints.get(one.testId)! })),
    )
  }
}

const textOf = ({ id, graderId, day, version, marks, correct, tried, passed }: CountedTest): string =>
  `${id} ${graderId} ${day} ${version} ${passed} ${marks} ${correct} ${tried}\n`

/** The quarters from the first test until today, and what each fit rests on: every test before it, and the events that give tests their kind. */
function fingerprints(ground: string, histories: readonly CandidateHistory[], today: string) {
  const tests = histories.flatMap(({ candidateId, tests: own, others }) =>
    own.map((test) => ({ day: test.day, text: `${candidateId} ${JSON.stringify(others)} ${textOf(test)}` })),
  )
  const inOrder = tests.sort((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : a.text < b.text ? -1 : 1))
  const [first, last] = [inOrder[0]?.day, inOrder.at(-1)?.day]
  const quarters = first && last ? quartersBetween(first, last > today ? last : today) : []
  const byQuarter = new Map<string | null, string>()
  const hash = createHash('sha256').update(ground)
  let at = 0
  for (const quarter of [...quarters, null]) {
    for (; at < inOrder.length && (quarter === null || inOrder[at]!.day < quarter); at++) hash.update(inOrder[at]!.text)
    byQuarter.set(quarter, hash.copy().digest('base64'))
  }
  return { quarters, before: (quarter: string | null) => byQuarter.get(quarter)! }
}
