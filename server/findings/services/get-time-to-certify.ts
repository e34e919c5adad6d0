import type { Context } from '../../context/context.ts'
import { today } from '../../context/today.ts'
import type { TimeToCertify, TimeToCertifyQuery } from '../../contract/findings/time-to-certify.ts'
import type { StoredCertification } from '../../db/catalogue.db.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { type LogRank, logRank } from '../../domain/statistics/survival/log-rank.ts'
import { invalid } from '../../errors.ts'
import { type CertifyTally, readCertifyTallies } from '../db/findings-certify.db.ts'
import { requirePeriod, unknownStandard } from './findings-query.ts'
import { findingsView } from './findings-view.ts'
import { LEVEL } from './get-basis.ts'
import { timesOf, toCurve } from './to-curve.ts'

type Times = TimeToCertify['items'][number]

/** So many companies can be told apart by a test; of more it says only that some differ, at a cost that grows with their square. */
const MOST_COMPARED = 40
/** More than any picture draws; of further companies the figures are answered, not the curve. */
const MOST_CURVES = 12

/**
 * How long soldiers take to be certified the first time, in days and in tests, by certification and company: those still
 * uncertified counted for as long as they were seen, leaving as the other way it can end. The period is that of their first days.
 */
export async function getTimeToCertify(
  context: Context,
  actor: Actor,
  query: TimeToCertifyQuery,
): Promise<TimeToCertify> {
  const { unitId } = await findingsView(context, actor, query.unitId)
  const { from = null, to = null, start } = query
  requirePeriod(from, to)
  const asOf = await today(context, unitId)
  const certifications = await certificationsOf(context, query)
  const { levels } = await context.catalogue.current(context.db)
  const level = levels.find(({ compared }) => compared)!.code
  const tallies = await readCertifyTallies(context.db, { certifications, start, from, to, unitId, level, today: asOf })
  const items = certifications.map((certification) =>
    toTimes(
      certification,
      tallies.filter((one) => one.certification === certification),
    ),
  )
  return { start, asOf, level: LEVEL, transformation: 'log-log', items }
}

/** The certifications that require the standard and can be earned with the arm, where these are named. */
async function certificationsOf(context: Context, query: TimeToCertifyQuery): Promise<string[]> {
  const { standards, certifications } = await context.catalogue.current(context.db)
  const { standard, certification, arm } = query
  if (standard !== undefined && !standards.has(standard)) throw unknownStandard(standard)
  if (certification !== undefined && !certifications.some(({ code }) => code === certification)) {
    const detail = `There is no certification "${certification}"; take its code from /api/certifications.`
    throw invalid('unknown-certification', 'certification', detail)
  }
  const isAsked = (one: StoredCertification): boolean =>
    (certification === undefined || one.code === certification) &&
    (standard === undefined || one.standards.includes(standard)) &&
    (arm === undefined || one.arms.length === 0 || one.arms.includes(arm))
  return certifications.filter(isAsked).map(({ code }) => code)
}

function toTimes(certification: string, tallies: readonly CertifyTally[]): Times {
  const seen = tallies.filter(({ certified, waiting, left }) => certified + waiting + left > 0)
  const companies = byCompany(seen)
  const compared =
    companies.length > MOST_COMPARED
      ? TOO_MANY
      : toComparison(
          logRank(companies.map(({ unitId, tallies: own }) => ({ key: unitId ?? '', tallies: timesOf(own) }))),
        )
  return {
    certification,
    all: toCurve(seen),
    companies: companies.map(({ unitId, name, tallies: own }, place) => {
      const curve = toCurve(own)
      return { unitId, name, ...curve, points: place < MOST_CURVES ? curve.points : [] }
    }),
    comparison: compared,
    leftOut: { certifiedBefore: tallies.reduce((sum, one) => sum + one.certifiedBefore, 0) },
  }
}

function byCompany(tallies: readonly CertifyTally[]) {
  const companies = new Map<string | null, { unitId: string | null; name: string | null; tallies: CertifyTally[] }>()
  for (const one of tallies) {
    const company = companies.get(one.companyId)
    if (company) company.tallies.push(one)
    else companies.set(one.companyId, { unitId: one.companyId, name: one.company, tallies: [one] })
  }
  return [...companies.values()]
}

const TOO_MANY: Times['comparison'] = {
  verdict: 'not-compared',
  reason: 'too-many-groups',
  chiSquare: null,
  degreesOfFreedom: null,
  p: null,
  expected: [],
}

function toComparison(judged: LogRank): Times['comparison'] {
  const expected = judged.groups.map(({ key, observed, expected: count, compared }) => ({
    unitId: key === '' ? null : key,
    observed,
    expected: count,
    compared,
  }))
  if (judged.kind === 'not-compared') {
    const { reason } = judged
    return { verdict: 'not-compared', reason, chiSquare: null, degreesOfFreedom: null, p: null, expected }
  }
  const { chiSquare, degreesOfFreedom, p, differs } = judged
  return { verdict: differs ? 'differ' : 'not-shown', reason: null, chiSquare, degreesOfFreedom, p, expected }
}
