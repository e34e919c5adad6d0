import type { KnownSheet, KnownStanding } from '#contract/soldiers/as-known.ts'
import type { Sayings } from './format-entered.ts'

type Retest = KnownStanding['retests'][number]

const wordOf = (standing: KnownStanding | null): string => standing?.status ?? 'no test yet'

/** What became of somebody's standing in a certification, a line each. One of the two may be missing: nothing was known. */
export function formatChanged(
  certification: string,
  before: KnownStanding | null,
  after: KnownStanding | null,
  say: Sayings,
): string[] {
  const lines: string[] = []
  const title = say.certification(certification)
  if (wordOf(before) !== wordOf(after)) lines.push(`${title}: ${wordOf(before)} became ${wordOf(after)}.`)
  else if (before && after && before.suspended !== after.suspended) {
    lines.push(`${title}: ${after.suspended ? 'suspended' : 'no longer suspended'}.`)
  }
  const [was, is] = [before?.validThrough ?? null, after?.validThrough ?? null]
  if (is !== null && was !== is) {
    lines.push(`${title}: valid through ${say.day(is)}${was === null ? '' : `, not ${say.day(was)}`}.`)
  }
  if (was !== null && is === null) lines.push(`${title}: the award through ${say.day(was)} falls away.`)
  return [
    ...lines,
    ...retestLines(title, before?.retests ?? [], after?.retests ?? [], say),
    ...keptLines(before, after, say),
  ]
}

function retestLines(title: string, before: readonly Retest[], after: readonly Retest[], say: Sayings): string[] {
  const standards = [...new Set([...before, ...after].map(({ standard }) => standard))]
  return standards.flatMap((code) => {
    const [was, is] = [before, after].map((list) => list.find(({ standard }) => standard === code))
    const test = `${title}: retest in ${say.standard(code)}`
    if (!is) return [`${test} no longer open.`]
    const when = `from ${say.day(is.earliest)}, due by ${say.day(is.due)}`
    if (!was) return [`${test} open ${when}.`]
    const lines: string[] = []
    if (was.earliest !== is.earliest || was.due !== is.due) {
      lines.push(`${test} ${when}, not from ${say.day(was.earliest)}, due by ${say.day(was.due)}.`)
    }
    if (was.attempt !== is.attempt) lines.push(`${test} is attempt ${is.attempt}, not ${was.attempt}.`)
    if (was.needsReview !== is.needsReview) {
      lines.push(`${test} ${is.needsReview ? 'needs a review first' : 'needs no review any more'}.`)
    }
    return lines
  })
}

function keptLines(before: KnownStanding | null, after: KnownStanding | null, say: Sayings): string[] {
  const [was, is] = [before?.toward ?? [], after?.toward ?? []]
  const standards = [...new Set([...was, ...is].map(({ standard }) => standard))]
  return standards.flatMap((code) => {
    const [old, kept] = [was, is].map((list) => list.find(({ standard }) => standard === code))
    if (!kept) return [`The GO in ${say.standard(code)} of ${say.day(old!.on)} is no longer kept.`]
    const text = `The GO in ${say.standard(code)} of ${say.day(kept.on)} is kept until ${say.day(kept.countsUntil)}`
    if (!old) return [`${text}.`]
    const isSame = old.on === kept.on && old.countsUntil === kept.countsUntil
    return isSame ? [] : [`${text}, not that of ${say.day(old.on)} until ${say.day(old.countsUntil)}.`]
  })
}

/** What became of a sheet that was known before. */
export function formatSheetChanged(before: KnownSheet | null, after: KnownSheet | null, which: string): string[] {
  if (!before) return []
  if (!after) return [`The sheet ${which} is no longer among these tests.`]
  const lines: string[] = []
  if (before.outcome !== after.outcome) lines.push(`The sheet ${which}: ${before.outcome} became ${after.outcome}.`)
  if (before.state !== after.state) lines.push(`The sheet ${which}: ${before.state} became ${after.state}.`)
  return lines
}
