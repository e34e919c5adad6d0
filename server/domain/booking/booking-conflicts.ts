import { followersAfterAll } from '../assessment/followers.ts'
import { surroundings } from '../assessment/surroundings.ts'
import { retestsOf } from '../certification/status.ts'
import { judgeSheet } from '../validity/judge-sheet.ts'
import { notNeeded } from './not-needed.ts'
import { ownConflicts } from './own-conflicts.ts'
import { plannedSheet } from './planned-sheet.ts'
import { timeConflicts } from './time-conflicts.ts'
import type { BookingConflict, BookingPlace, ConflictWeight, Prospect } from './types.ts'

/**
 * Everything that stands in the way of a booking, what cannot be first. The conditions of a valid test are those a sheet
 * is judged by (`judgeSheet`), asked of the sheet that the test would leave; what nobody can waive is refused.
 * In: what is known of the candidate. Out: a question that can be asked of many places.
 */
export function bookingConflicts(prospect: Prospect): (place: BookingPlace) => BookingConflict[] {
  const followers = followersAfterAll(prospect.catalogue, prospect.dossier)

  const validity = (place: BookingPlace): BookingConflict[] => {
    const sheet = plannedSheet(prospect, place)
    if (!sheet) {
      const detail = `No version of ${prospect.standard} is in force that day.`
      return [{ rule: 'standard-not-in-force', weight: 'holds', detail }]
    }
    const around = surroundings(prospect.catalogue, prospect.dossier, prospect.people, followers, sheet)
    const held = judgeSheet(sheet, around)
      .filter(({ rule }) => place.graderId !== null || !rule.startsWith('grader-'))
      .map(({ rule, waivable, detail }): BookingConflict => ({ rule, weight: waivable ? 'holds' : 'blocks', detail }))
    if (around.certifications.length > 0) return held
    const detail = 'No certification that requires this standard fits the candidate.'
    return [...held, { rule: 'does-not-fit', weight: 'warns', detail }]
  }

  const since = notNeeded(prospect, followers)
  const needless = ({ day }: BookingPlace): BookingConflict[] => {
    const on = since(day)
    if (on === null) return []
    const detail = `The candidate has passed this by ${on} already; the test is not needed.`
    return [{ rule: 'not-needed', weight: 'warns', detail }]
  }

  const pastDue = ({ day }: BookingPlace): BookingConflict[] => {
    const due = prospect.catalogue.certifications.flatMap(({ code }) => {
      const progress = followers.get(code)!.before(day)
      const open = retestsOf(progress, [], day).find(({ standard }) => standard === prospect.standard)
      return open ? (prospect.movedDue.get(`${code} ${open.on}`) ?? open.due) : []
    })
    const first = due.sort()[0]
    if (first === undefined || day <= first) return []
    return [{ rule: 'past-due', weight: 'warns', detail: `That is after the due day of the retest, ${first}.` }]
  }

  return (place) =>
    [
      ...ownConflicts(prospect, place),
      ...validity(place),
      ...timeConflicts(prospect, place),
      ...needless(place),
      ...pastDue(place),
    ].sort((a, b) => WEIGHTS.indexOf(a.weight) - WEIGHTS.indexOf(b.weight))
}

const WEIGHTS: readonly ConflictWeight[] = ['blocks', 'holds', 'warns']
