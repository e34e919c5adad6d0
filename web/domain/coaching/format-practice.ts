import type { Practice } from '#contract/coaching/practices.ts'
import { formatDay } from '../../words/format-day.ts'
import { counted, listed } from '../../words/format-number.ts'
import { ofAll } from '../../words/of-all.ts'

interface Tried {
  readonly trials: readonly ('correct' | 'incorrect')[]
  readonly faults: readonly { readonly trial: number; readonly code: string }[]
}

const correctOf = ({ trials }: Pick<Tried, 'trials'>): number => trials.filter((mark) => mark === 'correct').length

/** "7 of 9 correct"; "Not tried yet" without a trial. */
export const formatTried = (measure: Pick<Tried, 'trials'>): string =>
  measure.trials.length === 0 ? 'Not tried yet' : `${ofAll(correctOf(measure), measure.trials.length)} correct`

/** The faults noted on a measure, the most noted first: "tip too low twice, slow"; '' without any. */
export function formatFaultsNoted({ faults }: Pick<Tried, 'faults'>, titleOf: (fault: string) => string): string {
  const counts = new Map<string, number>()
  for (const { code } of faults) counts.set(code, (counts.get(code) ?? 0) + 1)
  const inOrder = [...counts].sort(([, a], [, b]) => b - a)
  return listed(
    inOrder.map(([code, count]) => (count === 1 ? titleOf(code) : `${titleOf(code)} (${counted(count, 'time')})`)),
  )
}

/** When a measure was last practised, and how it went: "12 Jun: 7 of 9 correct"; '' where it was not. In: the latest first. */
export function formatLastPractised(
  practices: readonly Practice[],
  standard: string,
  measure: string,
  today: string,
): string {
  for (const { standard: of, on, measures } of practices) {
    const tried = of === standard ? measures.find(({ code }) => code === measure) : undefined
    if (tried) return `${formatDay(on, today)}: ${formatTried(tried)}`
  }
  return ''
}
