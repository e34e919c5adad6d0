import type { Coaching } from '#contract/coaching/coaching.ts'
import { byGain, type ForecastOf } from '../../../domain/ability/format-forecast.ts'
import { formatWhen } from '../../../domain/coaching/format-ahead.ts'
import { formatDrillReason, isToDrill } from '../../../domain/coaching/format-drill.ts'
import { familyName } from '../../../domain/soldiers/format-person.ts'
import { formatDayInFull } from '../../../words/format-day.ts'
import { capital, countedInWords, inWords } from '../../../words/format-number.ts'

export type Coached = Coaching['items'][number]

interface Titles {
  standard: (code: string) => string
  measure: (standard: string, measure: string) => string
}

/** The measure to drill first; undefined where nothing is NO-GO or open. */
export const firstDrill = ({ drill }: Coached) => drill?.items.filter(isToDrill)[0]

/** The tests of a candidate that a forecast is shown of: those ahead, and the one to drill for. */
export const testsAheadOf = ({ candidateId, ahead, drill }: Coached) =>
  [...ahead, ...(drill ? [drill] : [])].map(({ standard }) => ({ soldierId: candidateId, standard }))

/** What to drill in order of what it adds to the chance to pass, as on the candidate's page. */
export const drillByGain = (one: Coached, forecastOf: ForecastOf): Coached => {
  const { drill, candidateId } = one
  if (!drill) return one
  return { ...one, drill: { ...drill, items: byGain(drill.items, forecastOf(candidateId, drill.standard)) } }
}

const soonest = (one: Coached) => one.ahead[0]?.booking?.on ?? one.ahead[0]?.retest?.due ?? '9999'

/** Candidates in order of their next test; those without any day last. */
export const inOrderOfTest = (items: readonly Coached[]): Coached[] =>
  [...items].sort((a, b) => soonest(a).localeCompare(soonest(b)) || a.rosterNumber.localeCompare(b.rosterNumber))

/** The answer on the desk, about the candidate tested next: what to drill first. */
export const formatFirst = (items: readonly Coached[], titles: Titles): string => {
  const [next] = inOrderOfTest(items)
  if (!next) return 'You sponsor nobody today.'
  const name = `${next.grade} ${familyName(next.name)}`
  const first = firstDrill(next)
  if (!next.drill || !first) return `Nothing of ${name} is NO-GO.`
  const measure = titles.measure(next.drill.standard, first.measure)
  return first.reason === 'not-tested' && next.drill.tests === 0
    ? `${name} has no test yet; first-timers fail most at: ${measure}.`
    : `With ${name}, drill first: ${measure}.`
}

/** Why that, and how many others have something to see to. */
export const formatWhy = (
  items: readonly Coached[],
  timeZone: string | null | undefined,
  titles: Titles,
  today: string,
): string => {
  const [next] = inOrderOfTest(items)
  if (!next) return 'The training office names the sponsor of a candidate; yours will stand here.'
  const first = firstDrill(next)
  const reason = first && next.drill ? `${capital(formatDrillReason(first, next.drill.tests, today))}. ` : ''
  const [ahead] = next.ahead
  const when = ahead ? `${titles.standard(ahead.standard)}: ${formatWhen(ahead, timeZone, today)}. ` : ''
  const warned = items.filter(({ warnings }) => warnings.length > 0).length
  const others =
    warned === 0
      ? ''
      : `${capital(countedInWords(warned, 'candidate'))} of ${inWords(items.length)} ${warned === 1 ? 'needs' : 'need'} attention.`
  return `${reason}${when}${others}`.trim()
}

/** That a sponsor has too many candidates, since when, and what to do; '' where not. */
export const formatTooMany = ({ tooManySince, candidates, mostCandidates }: Coaching, today: string): string =>
  tooManySince === null
    ? ''
    : `You sponsor ${inWords(candidates)} since ${formatDayInFull(tooManySince, today)}; your unit holds more than ${inWords(mostCandidates)} at a time for too many. Ask the training office to pass one on.`
