import type { Certification } from '../../../server/domain/certification/types.ts'
import { standingByTheLetter } from '../../unit/domain/certification/standing-by-the-letter.ts'
import { historyOf } from './history-of.ts'
import type { Facts, SheetFact } from './read-facts.ts'
import { whereOn } from './where-on.ts'

interface Standing {
  readonly status: { status: string; awardedOn: string | null; toward: { standard: string }[] }
  readonly retests: { standard: string; earliest: string; needsReview: boolean }[]
}

const FIVE_MINUTES = 300_000
const FIRST_ROW = ['grader-is-candidate', 'sponsor-is-candidate']
const NEVER = [...FIRST_ROW, 'grader-coached']
const ABOUT_THE_GRADER = ['grader-is-candidate', 'grader-coached', 'grader-not-qualified']

/** The rules of rule 4 that a stored sheet breaks, read row by row off the table, in its order. */
export function judgeByTheLetter(facts: Facts, sheet: SheetFact): string[] {
  const { body, day } = sheet
  const { candidateId, sponsorId, graderId, arm, standard } = body
  const candidate = facts.soldiers.get(candidateId)!
  const requiring = facts.certifications.filter(({ standards }) => standards.includes(standard))
  const carried = whereOn(facts, candidateId, day).arms
  const openTo = requiring.filter(({ arms }) => arms.length === 0 || arms.some((one) => carried.includes(one)))
  const before = (soldierId: string, certification: Certification): Standing => {
    const history = historyOf(facts, soldierId, certification, sheet)
    return standingByTheLetter({ certification, breaks: facts.breaks, history }, day) as Standing
  }
  const isCertified = (soldierId: string) =>
    requiring.some((certification) => before(soldierId, certification).status.status === 'certified')
  const isDuring = ({ from, to }: { from: string; to: string | null }) => from <= day && (to ?? day) >= day

  // The last award made, though it may still wait for a commander: as if all were in force at once.
  const lastAward = requiring
    .map((certification) => {
      const terms = certification.terms.map((one) =>
        one.approval === 'none' ? one : { ...one, approval: 'required-from-award' as const },
      )
      const history = historyOf(facts, candidateId, certification, sheet)
      const refused = history.decisions!.filter(({ decision }) => decision === 'refuse')
      const signed = history.attempts
        .filter(({ id }) => refused.every(({ sheetId }) => sheetId !== id))
        .map(({ id, day: on }) => ({ sheetId: id, decision: 'approve' as const, on }))
      const asSigned = { ...history, decisions: [...refused, ...signed] }
      const soldier = { certification: { ...certification, terms }, breaks: facts.breaks, history: asSigned }
      return (standingByTheLetter(soldier, day) as Standing).status.awardedOn
    })
    .reduce((latest, on) => (latest === null || (on !== null && on > latest) ? on : latest), null)
  const coached = candidate.sponsorships.some(
    ({ sponsorId: coach, from, to }) =>
      coach === graderId && from <= day && !(lastAward !== null && to !== null && to <= lastAward),
  )
  const retests = openTo.flatMap((certification) =>
    before(candidateId, certification).retests.filter((one) => one.standard === standard),
  )
  const outOfSequence = openTo.some((certification) => {
    const terms = [...certification.terms].sort((a, b) => (a.effectiveFrom < b.effectiveFrom ? -1 : 1))
    const { sequence } = terms.findLast(({ effectiveFrom }) => effectiveFrom <= day) ?? terms[0]!
    if (sequence === 'any') return false
    const kept = before(candidateId, certification).status.toward.map((one) => one.standard)
    return certification.standards
      .slice(0, certification.standards.indexOf(standard))
      .some((one) => !kept.includes(one))
  })
  const version = facts.versions.find((one) => one.standard === standard && one.version === body.standardVersion)!
  const next = facts.versions
    .filter((one) => one.standard === standard && one.published && one.from > version.from)
    .map(({ from }) => from)
    .sort()[0]
  const isInForce = version.published && version.from <= day && (next === undefined || day < next)
  const { uniform, equipment, sponsorPresent } = body.conditions
  const appointed = facts.soldiers.get(graderId)!.appointments.some((one) => one.standard === standard && isDuring(one))
  const ofRecord = candidate.sponsorships.some((one) => one.sponsorId === sponsorId && isDuring(one))

  const rows: [string, boolean][] = [
    ['grader-is-candidate', graderId === candidateId],
    ['sponsor-is-candidate', sponsorId === candidateId],
    ['grader-coached', graderId === sponsorId || coached],
    ['grader-not-qualified', !appointed && !isCertified(graderId)],
    ['no-sponsor', sponsorId === null],
    ['not-the-sponsor', sponsorId !== null && !ofRecord],
    ['sponsor-not-certified', sponsorId !== null && !isCertified(sponsorId)],
    ['conditions', !(uniform && equipment && sponsorPresent)],
    ['too-early', retests.some(({ earliest }) => day < earliest)],
    ['review-missing', retests.some(({ needsReview }) => needsReview)],
    ['out-of-sequence', outOfSequence],
    ['standard-not-in-force', !isInForce],
    [
      'arm-not-allowed',
      arm === null
        ? version.arms.length > 0
        : (version.arms.length > 0 && !version.arms.includes(arm)) || !carried.includes(arm),
    ],
    ['void-after-failure', body.void !== null && sheet.voidAfterFailure],
    [
      'clock-skew',
      Math.abs(sheet.clockSkewMs ?? 0) > FIVE_MINUTES || sheet.finishedAt - sheet.revisedAt > FIVE_MINUTES,
    ],
  ]
  return rows
    .filter(([, isBroken]) => isBroken)
    .map(([rule]) => rule)
    .filter(() => body.purpose === 'test')
    .filter((rule) => body.outcomeOnly === null || FIRST_ROW.includes(rule))
    .filter((rule) => body.secondOf === null || ABOUT_THE_GRADER.includes(rule))
    .filter((rule) => body.void === null || [...NEVER, 'void-after-failure', 'clock-skew'].includes(rule))
}
