import type { Context } from '../../context/context.ts'
import type { CandidateCoaching } from '../../contract/coaching/coaching.ts'
import type { CertificationStatus } from '../../contract/standards/certifications.ts'
import type { Scope } from '../../domain/access/scope.ts'
import { testsAhead } from '../../domain/coaching/tests-ahead.ts'
import { coachingWarnings, uncovered } from '../../domain/coaching/warnings.ts'
import { readReadiness } from '../../readiness/db/readiness.db.ts'
import { listRetests } from '../../readiness/db/retests.db.ts'
import { listBookings } from '../../test-days/db/bookings/bookings.db.ts'
import { listMarkedTests, listOwnFaults } from '../db/coaching.db.ts'
import { readLastPractices } from '../db/practices.db.ts'
import { planDrill } from './plan-drill.ts'
import { readUnitRates } from './unit-rates.ts'

/** A sponsor whom the warnings are about. */
export interface CoachedBy {
  readonly sponsorId: string
  readonly until: string | null
  /** Whether whoever asks may be told how they stand. */
  readonly visible: boolean
  /** How they stand. */
  readonly statuses: readonly CertificationStatus[]
}

type Facts = Pick<CandidateCoaching, 'statuses' | 'ahead' | 'warnings' | 'lastPractice' | 'drill'>

/** More bookings and retests than this nobody's candidates have. */
const MOST = 500

/**
 * What is ahead of candidates, what to warn of and what to drill. In: the day; a scope of these candidates and next to
 * nobody else; who sponsors each candidate; the standard to drill, or undefined: of the next test.
 */
export async function gatherCoaching(
  context: Context,
  scope: Scope,
  day: string,
  candidates: ReadonlyMap<string, readonly CoachedBy[]>,
  standard?: string,
): Promise<(candidateId: string) => Facts> {
  const first = { limit: MOST, after: null }
  const [catalogue, readiness, retests, bookings, tests, faults, practised] = await Promise.all([
    context.catalogue.current(context.db),
    readReadiness(
      context.db,
      scope,
      { day },
      { ...first, sort: 'number', standing: undefined, today: day, units: null },
    ),
    listRetests(context.db, scope, { day }, first),
    listBookings(context.db, scope, { from: day }, first),
    listMarkedTests(context.db, scope, [...candidates.keys()]),
    listOwnFaults(context.db, scope, [...candidates.keys()]),
    readLastPractices(context.db, scope, [...candidates.keys()]),
  ])
  const standardsOf = (code: string) => catalogue.certifications.find((one) => one.code === code)?.standards ?? []
  const statusesOf = (id: string) => readiness.items.filter(({ soldierId }) => soldierId === id)
  const aheadOf = (id: string) => {
    const statuses = statusesOf(id)
    const open = retests.filter(({ soldierId }) => soldierId === id)
    const coming = bookings.filter(
      ({ candidateId, state }) => candidateId === id && (state === 'booked' || state === 'checked in'),
    )
    const ahead = testsAhead(statuses, open, coming, standardsOf)
    return { statuses, ahead, wanted: standard ?? ahead[0]?.standard ?? renewedFirst(statuses, standardsOf) }
  }
  const plans = new Map([...candidates.keys()].map((id) => [id, aheadOf(id)]))
  const wantedByAny = [...plans.values()].flatMap(({ wanted }) => wanted ?? [])
  const rates = await readUnitRates(context, new Set(wantedByAny))

  return (id) => {
    const { statuses, ahead, wanted } = plans.get(id) ?? aheadOf(id)
    const begun = statuses.filter(({ status }) => status !== 'certified')
    const kept = begun.flatMap(({ certification, toward }) => toward.map((one) => ({ certification, ...one })))
    const held = statuses.flatMap(({ status, required, certification, validThrough }) =>
      status === 'certified' && required && validThrough !== null
        ? [{ certification, validThrough, standards: standardsOf(certification) }]
        : [],
    )
    const facts = { today: day, ahead, kept, held }
    const ofCandidate = tests.filter(({ candidateId }) => candidateId === id)
    const ownFaults = faults.filter(({ candidateId, standard: of }) => candidateId === id && of === wanted)
    const drill = wanted ? planDrill(catalogue, wanted, day, { tests: ofCandidate, faults: ownFaults }, rates) : null
    const warnings = warningsOf(facts, candidates.get(id) ?? [], standardsOf)
    return { statuses, ahead, warnings, lastPractice: practised.get(id) ?? null, drill }
  }
}

type StandardsOf = (certification: string) => readonly string[]

/** What to warn a candidate of, by day: what is about them, and what about the sponsors whom nobody else covers. */
function warningsOf(
  facts: Parameters<typeof coachingWarnings>[0],
  sponsors: readonly CoachedBy[],
  standardsOf: StandardsOf,
): CandidateCoaching['warnings'] {
  const own = coachingWarnings(facts).map((warning) => ({ ...warning, sponsorId: null }))
  const perSponsor = sponsors.map((sponsor) => {
    const through = certifiedThrough(sponsor.statuses, standardsOf)
    const all = coachingWarnings({ ...facts, until: sponsor.until, certifiedThrough: through })
    return { sponsor, warnings: all.filter(({ kind }) => SPONSORS.has(kind)) }
  })
  const ofSponsors = uncovered(perSponsor).flatMap(({ sponsor: { sponsorId, visible }, warnings }) =>
    visible ? warnings.map((warning) => ({ ...warning, sponsorId })) : [],
  )
  return [...own, ...ofSponsors].sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0))
}

/** Through which day somebody is certified in a standard, by its code; null: not at all. */
const certifiedThrough = (held: readonly CertificationStatus[], standardsOf: StandardsOf) => (code: string) =>
  held
    .filter((one) => one.status === 'certified' && standardsOf(one.certification).includes(code))
    .map(({ validThrough }) => validThrough)
    .reduce<string | null>(
      (last, through) => (last === null || (through !== null && through > last) ? through : last),
      null,
    )

/** Warnings that are about a sponsor. */
const SPONSORS: ReadonlySet<string> = new Set(['sponsor-not-certified', 'sponsorship-ends'])

/** With nothing ahead, the first standard of what has to be renewed first. */
function renewedFirst(statuses: Facts['statuses'], standardsOf: StandardsOf): string | undefined {
  const held = statuses.filter(({ validThrough }) => validThrough !== null)
  const [first] = held.sort((a, b) => (a.validThrough! < b.validThrough! ? -1 : 1))
  return first && standardsOf(first.certification)[0]
}
