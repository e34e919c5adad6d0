import type { CeremonyBody } from '../../server/contract/ceremonies/ceremonies.ts'
import { addDays } from '../../server/domain/calendar/plain-date.ts'
import { instantInZone, textInZone } from '../../server/domain/calendar/zoned-instant.ts'
import { type CeremonyPattern, ceremonies } from '../catalogue/ceremonies.ts'
import { alternatesFor } from './alternates-for.ts'
import { earlierDay } from './day-order.ts'
import { nameFor, type Occasion } from './name-for-post.ts'
import type { PlannedEvent } from './plan.ts'
import { morningOf, type Program } from './program/program.ts'
import type { Random } from './random.ts'

/** Days from today; two fall on one day at one hour, and want the same people. */
const UPCOMING = [4, 11, 18, 25, 32, 32, 46, 63]
const PAST = [-54, -37, -23, -9]
/** Who is on the roster so long before is named; who comes or goes after is not foreseen. */
const PLANNED_DAYS_BEFORE = 21
const MINUTE = 60_000
/** Arms are drawn and handed in again around every ceremony and rehearsal. */
const MINUTES_BEFORE = 30
const MINUTES_AFTER = 30

/**
 * Ceremonies of the last weeks and of those to come, their posts named to soldiers who can stand that day as far as is
 * known today; some posts are open, some named to who cannot. What came later to this draws from `extra`.
 */
export function planCeremonies(
  program: Program,
  random: Random,
  extra: Random,
): Extract<PlannedEvent, { kind: 'ceremony' }>[] {
  const patterns = random.shuffle(ceremonies)
  const companies = random.shuffle(['a', 'b', 'c'])
  const taken = new Set<string>()
  const hours = new Map<string, string>()
  return [...PAST, ...UPCOMING].map((days, index) => {
    const day = addDays(program.today, days)
    const usual = patterns[index % patterns.length]!
    const pattern = { ...usual, startsAt: hours.get(day) ?? usual.startsAt }
    hours.set(day, pattern.startsAt)
    const plannedOn = addDays(earlierDay(day, program.today), -PLANNED_DAYS_BEFORE)
    const unitKey = pattern.mannedBy === 'battalion' ? 'battalion' : companies[index % companies.length]!
    const occasion = { day, plannedOn, unitKey, taken }
    const body = ceremony(program, random, pattern, occasion)
    const alternates = days > 0 ? alternatesFor(program, extra, occasion, body.posts) : []
    return { kind: 'ceremony', at: morningOf(program, plannedOn), body: { ...body, alternates } }
  })
}

function ceremony(program: Program, random: Random, pattern: CeremonyPattern, occasion: Occasion): CeremonyBody {
  const { title, place, notes, minutes, reportMinutes } = pattern
  const instant = (millis: number) => textInZone(millis, program.timeZone)
  const startsAt = instantInZone(occasion.day, minutesOf(pattern.startsAt), program.timeZone)
  return {
    title,
    place,
    unitId: occasion.unitKey,
    reportsAt: instant(startsAt - reportMinutes * MINUTE),
    startsAt: instant(startsAt),
    endsAt: instant(startsAt + minutes * MINUTE),
    minutesBefore: MINUTES_BEFORE,
    minutesAfter: MINUTES_AFTER,
    notes,
    rehearsals: pattern.rehearsals.map((rehearsal) => {
      const begins = addDays(occasion.day, -rehearsal.daysBefore)
      const at = instantInZone(begins, minutesOf(rehearsal.startsAt), program.timeZone)
      return { startsAt: instant(at), endsAt: instant(at + rehearsal.minutes * MINUTE), place: rehearsal.place }
    }),
    posts: pattern.posts.map((post) => ({ ...post, soldierId: nameFor(program, random, occasion, post) })),
    alternates: [],
  }
}

const minutesOf = (time: string): number => Number(time.slice(0, 2)) * 60 + Number(time.slice(3))
