import type { UnitMovePreview } from '#contract/soldiers/unit-moves.ts'
import { formatDay } from '../../../words/format-day.ts'
import { countedInWords, listed, plural } from '../../../words/format-number.ts'

/** "From 1 Jun on 2nd Platoon goes on in B Company, with 28 people, two units below it and one test day." */
export function formatAlong(told: UnitMovePreview, name: string, where: string, today: string): string {
  const parts = [
    told.people === 0 ? 'nobody in it' : countedInWords(told.people, 'soldier'),
    told.units > 1 && countedInWords(told.units - 1, 'unit below it', 'units below it'),
    told.testDays > 0 && countedInWords(told.testDays, 'test day'),
    told.ceremonies > 0 && countedInWords(told.ceremonies, 'ceremony', 'ceremonies'),
    told.accounts > 0 && countedInWords(told.accounts, 'account'),
  ].filter((part) => part !== false)
  return `From ${formatDay(told.from, today)} on ${name} goes on ${where}, with ${listed(parts)}.`
}

/** What does not move. */
export const formatStays = (told: UnitMovePreview, name: string, today: string): string =>
  `What was before that day stays with ${name}: rosters, sheets and figures. It is listed as closed from ${formatDay(told.from, today)} on, and figures of the unit there begin that day. If nothing of the past is left in it, it was only in the wrong place and goes.`

/** Which certifications are required otherwise by what is above; null: none. */
export const formatRequired = ({ required }: UnitMovePreview): string | null =>
  required.length === 0
    ? null
    : `${listed(required)} ${plural(required.length, 'is', 'are')} required of the people of some units only: by the move these must hold ${plural(required.length, 'it', 'them')} from that day and did not before, or the other way round.`
