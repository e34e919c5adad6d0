import { addDays, type PlainDate } from '../../../server/domain/calendar/plain-date.ts'
import { companyOf } from '../establishment.ts'
import { type Person, placeOn } from './person.ts'

/** When each company was away for field training, in days before today; nobody of it is tested then. */
const AWAY: Readonly<Record<string, { readonly first: number; readonly last: number }>> = {
  a: { first: 420, last: 385 },
  b: { first: 262, last: 225 },
  c: { first: 75, last: 14 },
}

/** Whether somebody's company is away that day. */
export function isInTheField(person: Person, day: PlainDate, today: PlainDate): boolean {
  const unitKey = placeOn(person, day)?.unitId
  const away = AWAY[(unitKey && companyOf(unitKey)) ?? '']
  return away !== undefined && day >= addDays(today, -away.first) && day <= addDays(today, -away.last)
}
