import type { Attempt, Certification, Terms } from '../../../server/domain/certification/types.ts'
import { historyOf } from './history-of.ts'
import type { Facts, SheetFact } from './read-facts.ts'

const DAY_MS = 86_400_000

interface Followed {
  /** Considered sheets since the last award or withdrawal. */
  readonly since: readonly Attempt[]
  /** The sheets that made an award. */
  readonly awarding: readonly Attempt[]
}

/** Follows a soldier in a certification through all sheets, or through what lies before one in order. */
export function follow(facts: Facts, certification: Certification, soldierId: string, before?: SheetFact): Followed {
  const history = historyOf(facts, soldierId, certification, before)
  const dayEnds = [...history.awards.map(({ awardedOn }) => awardedOn), ...history.withdrawals].sort()
  const awarding: Attempt[] = []
  let since: Attempt[] = []
  const endDaysBefore = (day: string) => {
    while (dayEnds.length > 0 && dayEnds[0]! < day) {
      dayEnds.shift()
      since = []
    }
  }
  const considered = history.attempts.filter((one) => isConsidered(certification, one))
  for (const attempt of considered.sort((a, b) => a.finishedAt - b.finishedAt || (a.id < b.id ? -1 : 1))) {
    endDaysBefore(attempt.day)
    since.push(attempt)
    const isDone =
      attempt.outcome === 'GO' && certification.standards.every((one) => isKept(facts, certification, since, one))
    const isRefused =
      termsOf(certification, attempt.day).approval !== 'none' &&
      history.decisions!.some(({ sheetId, decision }) => sheetId === attempt.id && decision === 'refuse')
    if (isDone && !isRefused) {
      awarding.push(attempt)
      since = []
    }
  }
  endDaysBefore(before?.day ?? '9999-12-31')
  return { since, awarding }
}

/**
 * The attempt number a sheet has in a certification that considers it: one more than the considered sheets of its
 * standard before it since the last award or withdrawal.
 */
export function attemptNumber(facts: Facts, certification: Certification, sheet: SheetFact): number {
  const { since } = follow(facts, certification, sheet.body.candidateId, sheet)
  return 1 + since.filter(({ standard }) => standard === sheet.body.standard).length
}

export const isConsidered = ({ standards, arms }: Certification, sheet: { standard: string; arm: string | null }) =>
  standards.includes(sheet.standard) && (arms.length === 0 || arms.some((arm) => arm === sheet.arm))

/** Whether the latest sheet of a standard is a GO that no GO since, itself included, has let be forgotten. */
function isKept(facts: Facts, certification: Certification, since: readonly Attempt[], standard: string): boolean {
  const go = since.findLast((one) => one.standard === standard)
  if (go?.outcome !== 'GO') return false
  return since.slice(since.indexOf(go)).every(({ outcome, day }) => {
    if (outcome !== 'GO') return true
    const isOld = Date.parse(go.day) < Date.parse(day) - termsOf(certification, day).windowDays * DAY_MS
    const isOutdated = facts.breaks.some(
      (one) => one.standard === standard && go.version < one.version && one.effectiveFrom <= day,
    )
    return !isOld && !isOutdated
  })
}

export function termsOf<Some extends Terms>({ terms }: { readonly terms: readonly Some[] }, day: string): Some {
  const inOrder = [...terms].sort((a, b) => (a.effectiveFrom < b.effectiveFrom ? -1 : 1))
  return inOrder.findLast(({ effectiveFrom }) => effectiveFrom <= day) ?? inOrder[0]!
}
