import type { AssessedSheet } from '../assessment/types.ts'
import { sponsorOn } from './sponsor-on.ts'
import type { BookingPlace, Prospect } from './types.ts'

const NOON = 12 * 3_600_000

/**
 * The sheet that a booked test would leave if all went as planned: the version in force that day, an arm the candidate
 * carries, the sponsor of that day. Null where no version is in force. Where nobody is named to grade, `graderId` is ''.
 */
export function plannedSheet(prospect: Prospect, { day, time, graderId }: BookingPlace): AssessedSheet | null {
  const { catalogue, candidateId, standard, dossier } = prospect
  const version = catalogue.versions
    .filter((one) => one.standard === standard && one.published && one.effectiveFrom <= day)
    .reduce<(typeof catalogue.versions)[number] | null>(
      (last, one) => (last && last.effectiveFrom > one.effectiveFrom ? last : one),
      null,
    )
  if (!version) return null
  const carried =
    dossier.periods.find(({ from, through }) => from <= day && (through === null || day <= through))?.arms ?? []
  const finishedAt = time?.to ?? Date.parse(`${day}T00:00:00Z`) + NOON
  return {
    id: 'planned',
    purpose: 'test',
    standard,
    version: version.version,
    arm: version.arms.find((arm) => carried.includes(arm)) ?? version.arms[0] ?? null,
    candidateId,
    sponsorId: sponsorOn(dossier.sponsorships, day),
    graderId: graderId ?? '',
    day,
    startedAt: time?.from ?? finishedAt,
    finishedAt,
    secondOf: null,
    isSecond: false,
    outcomeOnly: false,
    isVoid: false,
    outcome: 'GO',
    conditionsMet: true,
    voidAfterFailure: false,
    storedAt: finishedAt,
    clockSkewMs: null,
    state: 'new',
    violations: [],
    waived: [],
    tolerated: [],
  }
}
