import { addDays, type PlainDate } from '../../server/domain/calendar/plain-date.ts'
import type { Career, LeftKind } from './career.ts'
import { type Billet, type Grade, platoonKeys } from './establishment.ts'
import { dayWithin, pastSteps } from './past-steps.ts'
import type { Random } from './random.ts'

/** The days the record of the demo unit covers. */
export interface RecordSpan {
  opening: PlainDate
  today: PlainDate
}

export const leaving = (random: Random): LeftKind =>
  random.weighted<LeftKind>([
    ['transferred', 0.6],
    ['separated', 0.3],
    ['other', 0.1],
  ])

/** A day before the record opens, on which somebody joined who was there already. */
export const joinedBefore = (random: Random, opening: PlainDate): PlainDate =>
  addDays(opening, -random.integer(20, 480))

const recentDay = (random: Random, today: PlainDate): PlainDate =>
  dayWithin(random, addDays(today, -500), addDays(today, -60)) as PlainDate

const RISES_WITH: Partial<Record<Billet['duty'], Grade>> = { 'platoon leader': '1LT', 'platoon sergeant': 'SFC' }

const holder = (random: Random, billet: Billet, joined: PlainDate, { opening, today }: RecordSpan): Career => ({
  duty: billet.duty,
  steps: pastSteps(random, billet, { joined, opening, through: today }),
})

/** Whoever held a billet since before the record opens, gone soon after the relief came. */
function relieved(random: Random, billet: Billet, relief: PlainDate, { opening }: RecordSpan): Career {
  const left = addDays(relief, random.integer(1, 14))
  const steps = pastSteps(random, billet, { joined: joinedBefore(random, opening), opening, through: left })
  return { duty: billet.duty, steps: [...steps, { from: left, left: leaving(random) }] }
}

/** Somebody new in the billet, and who was relieved. */
function relief(random: Random, billet: Billet, before: Grade, span: RecordSpan): Career[] {
  const on = recentDay(random, span.today)
  return [holder(random, billet, on, span), relieved(random, { ...billet, grade: before }, on, span)]
}

/** Somebody rises from a platoon's billet to the company's; the one who follows in the platoon has come just before. */
function risen(random: Random, billet: Billet, above: Billet, span: RecordSpan): Career[] {
  const on = recentDay(random, span.today)
  const held = { ...billet, grade: RISES_WITH[billet.duty] ?? billet.grade }
  const joined = joinedBefore(random, span.opening)
  const steps = pastSteps(random, held, { joined, opening: span.opening, through: on })
  return [
    { duty: above.duty, steps: [...steps, { from: on, grade: above.grade, unitKey: above.unitKey }] },
    holder(random, billet, addDays(on, -random.integer(1, 14)), span),
  ]
}

/** Once a sergeant of another platoon, now a lieutenant; half of them were away for a course between the two. */
function commissioned(random: Random, billet: Billet, fromUnit: string, span: RecordSpan): Career[] {
  const on = recentDay(random, span.today)
  const steps: Career['steps'] = [{ from: joinedBefore(random, span.opening), grade: 'SGT', unitKey: fromUnit }]
  if (random.chance(0.5)) steps.push({ from: addDays(on, -random.integer(80, 110)), left: 'other' })
  steps.push({ from: on, grade: '2LT', unitKey: billet.unitKey })
  return [{ duty: billet.duty, steps }, relieved(random, { ...billet, grade: '1LT' }, on, span)]
}

/**
 * The leaders and sergeants of one company's four platoons, its executive officer and its first sergeant, and those
 * before them. In: the billets of the company and its platoons. Every platoon has a leader and a platoon sergeant on
 * each day from `opening` to `today`, since a relief comes before the relieved goes.
 */
export function leaderCareers(random: Random, company: string, billets: readonly Billet[], span: RecordSpan): Career[] {
  const [officerRose, sergeantRose, sergeantBecameOfficer] = random.shuffle(platoonKeys(company))
  const above = (duty: Billet['duty']) => billets.find((one) => one.unitKey === company && one.duty === duty) as Billet
  const longThere = (billet: Billet) => [holder(random, billet, joinedBefore(random, span.opening), span)]

  const platoonLeader = (billet: Billet): Career[] => {
    if (billet.unitKey === officerRose) return risen(random, billet, above('executive officer'), span)
    if (billet.unitKey === sergeantBecameOfficer) return commissioned(random, billet, sergeantRose as string, span)
    return billet.grade === '2LT' ? relief(random, billet, '1LT', span) : longThere(billet)
  }
  const platoonSergeant = (billet: Billet): Career[] => {
    if (billet.unitKey === sergeantRose) return risen(random, billet, above('first sergeant'), span)
    return random.chance(0.35) ? relief(random, billet, 'SFC', span) : longThere(billet)
  }
  return billets.flatMap((billet) => {
    if (billet.duty === 'platoon leader') return platoonLeader(billet)
    if (billet.duty === 'platoon sergeant') return platoonSergeant(billet)
    return []
  })
}
