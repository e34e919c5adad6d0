import { Temporal } from 'temporal-polyfill'
import type { Attempt, CarriedAward, Terms } from '../../../../server/domain/certification/types.ts'
import type { SoldierCase } from './arbitrary-history.ts'

/** An award, and the day from which it is in force; null: none yet. */
type Award = Pick<CarriedAward, 'awardedOn' | 'validThrough'> & { readonly inForce: string | null }

interface Standing {
  readonly status: object
  readonly retests: readonly object[]
}

const dayNumber = (date: string): number => Date.parse(date) / 86_400_000
const dateOf = (day: number): string => new Date(day * 86_400_000).toISOString().slice(0, 10)

/**
 * The rules of certification, retests and attempts read sentence by sentence, as of one day. It keeps no progress: it
 * looks back over the sheets since the last award or withdrawal and asks of each what the rules ask.
 */
export function standingByTheLetter({ certification, breaks, history }: SoldierCase, asOf: string): Standing {
  const required = certification.standards
  const termsOf = (date: string): Terms => {
    const inOrder = [...certification.terms].sort((a, b) => dayNumber(a.effectiveFrom) - dayNumber(b.effectiveFrom))
    return inOrder.findLast((terms) => dayNumber(terms.effectiveFrom) <= dayNumber(date)) ?? inOrder[0]!
  }

  const made: Award[] = []
  let since: Attempt[] = []

  const isOutdated = (go: Attempt, date: string) =>
    breaks.some((one) => one.standard === go.standard && go.version < one.version && one.effectiveFrom <= date)
  /** The GO of a standard that has not been dropped by a NO-GO nor forgotten at a GO since. */
  const keptOf = (standard: string): Attempt | null => {
    const latest = since.findLast((sheet) => sheet.standard === standard)
    if (latest?.outcome !== 'GO') return null
    const gosSince = since.slice(since.indexOf(latest)).filter((sheet) => sheet.outcome === 'GO')
    const forgotten = gosSince.some(
      ({ day }) => dayNumber(latest.day) < dayNumber(day) - termsOf(day).windowDays || isOutdated(latest, day),
    )
    return forgotten ? null : latest
  }

  const lastDay = (award: string | undefined, day: string) =>
    (history.extensions ?? [])
      .filter((one) => one.award === award)
      .reduce((last, { days }) => last + days, dayNumber(day))
  const decisionOn = (sheet: string) => (history.decisions ?? []).find(({ sheetId }) => sheetId === sheet)
  /** "in force from": by the terms of the award's day. Refused: undefined. */
  const inForceFrom = ({ id, day }: Attempt): string | null | undefined => {
    const [asked, said] = [termsOf(day).approval ?? 'none', decisionOn(id)]
    if (asked === 'none') return day
    if (said?.decision === 'refuse') return undefined
    if (said === undefined) return null
    return asked === 'required' && dayNumber(said.on) > dayNumber(day) ? said.on : day
  }

  const dayEnds = [
    ...[...history.awards].sort((a, b) => a.entry - b.entry).map((one) => ({ day: one.awardedOn, carriedOver: one })),
    ...history.withdrawals.map((day) => ({ day, carriedOver: null })),
  ]
    .filter(({ day }) => day <= asOf)
    .sort((a, b) => dayNumber(a.day) - dayNumber(b.day))
  const endDaysBefore = (date: string | null) => {
    while (dayEnds.length > 0 && (date === null || dayEnds[0]!.day < date)) {
      const { carriedOver } = dayEnds.shift()!
      if (carriedOver) {
        const { id, awardedOn, validThrough } = carriedOver
        made.push({ awardedOn, validThrough: dateOf(lastDay(id, validThrough)), inForce: awardedOn })
      }
      since = []
    }
  }

  const considered = history.attempts
    .filter(({ standard }) => required.includes(standard))
    .filter(({ arm }) => certification.arms.length === 0 || certification.arms.some((one) => one === arm))
    .filter(({ day }) => day <= asOf)
    .sort((a, b) => (a.finishedAt === b.finishedAt ? (a.id < b.id ? -1 : 1) : a.finishedAt - b.finishedAt))
  for (const sheet of considered) {
    endDaysBefore(sheet.day)
    since.push(sheet)
    if (sheet.outcome === 'GO' && required.every((standard) => keptOf(standard) !== null)) {
      const inForce = inForceFrom(sheet)
      if (inForce === undefined) continue
      const months = termsOf(sheet.day).validityMonths
      const through = Temporal.PlainDate.from(sheet.day).add({ months }).toString()
      made.push({ awardedOn: sheet.day, validThrough: dateOf(lastDay(sheet.id, through)), inForce })
      since = []
    }
  }
  endDaysBefore(null)

  const sorted = [...required].sort()
  const toward = sorted.flatMap((standard) => {
    const kept = keptOf(standard)
    if (!kept || isOutdated(kept, asOf)) return []
    const until = dayNumber(kept.day) + termsOf(asOf).windowDays
    return until < dayNumber(asOf) ? [] : [{ standard, on: kept.day, countsUntil: dateOf(until) }]
  })
  const retests = sorted.flatMap((standard) => {
    const own = since.filter((sheet) => sheet.standard === standard)
    const latest = own.at(-1)
    if (latest?.outcome !== 'NO-GO') return []
    const inARow = own.length - 1 - own.findLastIndex(({ outcome }) => outcome === 'GO')
    const { waitDays, dueDays, reviewAfter } = termsOf(latest.day)
    const due = dateOf(dayNumber(latest.day) + dueDays)
    const reviewed = history.reviews.some((one) => one.standard === standard && latest.day <= one.on && one.on <= asOf)
    return [
      {
        standard,
        attempt: own.length + 1,
        on: latest.day,
        earliest: dateOf(dayNumber(latest.day) + waitDays),
        due,
        pastDue: asOf > due,
        noGosInARow: inARow,
        needsReview: inARow >= reviewAfter && !reviewed,
      },
    ]
  })
  const last = made.findLast(({ inForce }) => inForce !== null && inForce <= asOf) ?? null
  const isWaiting = made.length > 0 && made.at(-1) !== last
  const suspended = history.suspensions.some(({ from, lift }) => from <= asOf && !(lift !== null && lift <= asOf))
  const words: [string, boolean][] = [
    ['suspended', suspended && last !== null && asOf <= last.validThrough],
    ['certified', last !== null && asOf <= last.validThrough],
    ['awaiting approval', isWaiting],
    ['retest due', retests.length > 0],
    ['part way', toward.length > 0],
    ['lapsed', last !== null],
    ['no test yet', true],
  ]
  const status = {
    status: words.find(([, applies]) => applies)![0],
    awardedOn: last?.awardedOn ?? null,
    validThrough: last?.validThrough ?? null,
    suspended,
    toward,
    retestOpen: retests.map(({ standard }) => standard),
  }
  return { status, retests }
}
