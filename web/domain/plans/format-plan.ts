import type { z } from 'zod'
import type { Plan as PlanSchema, RetestPlanRows as RowsSchema } from '#contract/plans/plans.ts'
import { formatDayInFull } from '../../words/format-day.ts'
import { capital, counted, countedInWords, figure, inWords } from '../../words/format-number.ts'

type Plan = z.infer<typeof PlanSchema>
type Rows = z.infer<typeof RowsSchema>
type Level = Plan['levels'][number]

/** "27 of 31 open tests can be placed by their due day.", both in words or both in figures. */
export function formatPlaced(
  { open, inTime }: Pick<Rows, 'open' | 'inTime'>,
  what: 'retest' | 'test' = 'test',
): string {
  if (open === 0) return `No open ${what} waits for a slot.`
  const say = inWords(open) === figure(open) ? figure : inWords
  if (inTime === open) {
    return open === 1
      ? `The one open ${what} can be placed by its due day.`
      : `All ${say(open)} open ${what}s can be placed by their due day.`
  }
  if (inTime === 0) return `No open ${what} can be placed by its due day: ${counted(open, 'waits', 'wait')} for a slot.`
  return `${capital(say(inTime))} of ${say(open)} open ${what}s can be placed by their due day.`
}

/** How sure it is that no plan places more. */
export function formatWhetherBest(levels: readonly Level[], state: Plan['state']): string {
  const open = levels.find(({ value, bound }) => value !== bound)
  if (!open) return 'No other plan with these slots, graders and sponsors does better.'
  const why = state === 'stopped' ? 'The search was stopped' : 'The search ran out of time'
  return `${why}. ${formatLevel(open)}: this plan has ${formatValue(open.value)}; at best it would be ${formatValue(open.bound)}.`
}

/** Names of the levels as people read them. */
const LEVELS: Readonly<Record<string, string>> = {
  'bookings kept': 'Bookings that stay or move, none lost',
  'placed by their due day': 'Placed by their due day',
  placed: 'Placed at all',
  'expected posts filled': 'Short posts that can be expected to be filled',
  'days after due': 'Days after the due day, all together',
  'bookings moved': 'Bookings moved',
  'days into the period': 'Days waited from the first day, all together',
}

const formatValue = (value: number): string => figure(Math.round(value * 10) / 10)

export const formatLevel = ({ name }: Level): string => LEVELS[name] ?? name

export const formatLevelValue = ({ value }: Level): string => formatValue(value)

/** "the best there is", or how much better it could be. */
export const formatBound = ({ value, bound }: Level): string =>
  value === bound ? 'the best there is' : `could be ${formatValue(bound)} at best`

/** The one change that would place most of what is left, as something to do. */
export function formatBestChange(
  change: NonNullable<Rows['bestChange']>,
  title: (code: string) => string,
  today: string,
): string {
  const gain = `would place up to ${inWords(change.places)} more`
  switch (change.change) {
    case 'more slots':
      return `${capital(countedInWords(change.places, 'more slot'))} on ${formatDayInFull(change.on!, today)} ${gain}.`
    case 'test day': {
      const by = change.by !== null && change.by >= today ? ` by ${formatDayInFull(change.by, today)}` : ''
      return `Another test day for ${title(change.standard!)}${by} ${gain}.`
    }
    case 'sponsor there':
      return `If ${change.sponsorName} were there instead of absent, that ${gain}.`
    default:
      return `Another grader on these days ${gain}.`
  }
}

/** How far a plan is while it is worked out. */
export function formatProgress({ state, progress }: Plan): string {
  if (state === 'waiting' || !progress) return 'Looking up who may be tested where.'
  if (progress.ahead > 0) return `${capital(countedInWords(progress.ahead, 'plan'))} before this one.`
  return progress.placed === null
    ? 'Looking for a first answer.'
    : `${capital(countedInWords(progress.placed, 'test'))} placed so far; looking for a better answer.`
}

/** Text of the server with its days as people say them. */
export const withDays = (text: string, today: string): string =>
  text.replace(/\b\d{4}-\d{2}-\d{2}\b/g, (day) => formatDayInFull(day, today))

/** What is to be known of a planned test beside where and when. */
export function formatPlannedNote(row: Rows['rows'][number], today: string): string {
  const { state, movesFrom, daysLate, fills, kind } = row
  return [
    state === 'accepted' && 'Booked by this plan.',
    state === 'kept' && 'Booked already, and stays.',
    movesFrom && state === 'proposed' && 'Moves from another slot.',
    kind === 'renewal' && 'Renewal.',
    kind === 'first test' && 'First test.',
    daysLate > 0 && `${capital(countedInWords(daysLate, 'day'))} after due.`,
    fills && `Passing fills a short post before ${formatDayInFull(fills.before, today)}: ${formatChance(fills)}.`,
  ]
    .filter((part) => part !== false && part !== null)
    .join(' ')
}

const TENTHS = 10

const formatChance = ({ chance, basis }: NonNullable<Rows['rows'][number]['fills']>): string => {
  const of = basis === 'model' ? 'such candidates' : 'tests of this kind in the unit'
  return `about ${inWords(Math.round(chance * TENTHS))} of ten ${of} pass`
}
