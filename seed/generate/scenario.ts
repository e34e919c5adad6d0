import type { StandardBody } from '../../server/contract/standards/standards.ts'
import { addDays, type PlainDate } from '../../server/domain/calendar/plain-date.ts'
import { certifications } from '../catalogue/certifications.ts'
import { chooseAccounts } from './choose-accounts.ts'
import { earlierDay } from './day-order.ts'
import { officeEntries } from './office-entries.ts'
import { generateUnit } from './people.ts'
import type { PlannedEvent, Scenario } from './plan.ts'
import { planAvailability } from './plan-availability.ts'
import { planCeremonies } from './plan-ceremonies.ts'
import { planNotes } from './plan-notes.ts'
import { createProgram } from './program/create-program.ts'
import { morningOf, type Program } from './program/program.ts'
import { runProgram } from './program/run-program.ts'
import { createRandom } from './random.ts'
import { serviceEvents } from './service-events.ts'

/** The one number the demo hangs on. */
export const DEMO_SEED = 13

/** Apart from the other streams, so that they draw what they drew without it. */
const AVAILABILITY_STREAM = 7_919
const OFFICE_ENTRIES_STREAM = 612

/** Sets the stream of coaching notes apart from the others. */
const NOTES_STREAM = 4412

/** A changed standard is published, and a test day planned, so many days before. */
const PUBLISHED_DAYS_BEFORE = 20
const PLANNED_DAYS_BEFORE = 28

/**
 * The whole demo, all of it invented: people, standards, eighteen months of tests, ceremonies and accounts.
 * In: one whole number, and the day it is loaded in the zone of the unit. The same of both gives the same scenario.
 */
export function generateScenario({ seed, today }: { seed: number; today: PlainDate }): Scenario {
  const random = createRandom(seed)
  const stream = () => createRandom(random.integer(0, 2 ** 48))
  const { units, soldiers } = generateUnit({ random: stream(), today })
  const program = createProgram({ random: stream(), today, soldiers })
  runProgram(program)
  const ceremonyStream = stream()
  const extra = createRandom(seed + AVAILABILITY_STREAM)
  const ceremonies = planCeremonies(program, ceremonyStream, extra)
  const events = [
    ...program.standards.map((body): PlannedEvent => ({ kind: 'standard', at: publishedAt(program, body), body })),
    ...certifications.map(
      (body): PlannedEvent => ({ kind: 'certification', at: morningOf(program, program.start), body }),
    ),
    ...serviceEvents(program, soldiers),
    ...testDayEvents(program),
    ...program.events,
    ...ceremonies,
    ...planAvailability(program, extra, ceremonies),
    ...officeEntries(program, soldiers, createRandom(seed + OFFICE_ENTRIES_STREAM)),
  ]
  const accounts = chooseAccounts(program)
  const notes = planNotes(program, createRandom(seed + NOTES_STREAM), accounts)
  return { units, events: events.toSorted((one, other) => one.at - other.at), accounts, notes }
}

const publishedAt = (program: Program, { version, effectiveFrom }: StandardBody): number =>
  morningOf(program, version === 1 ? effectiveFrom : addDays(effectiveFrom, -PUBLISHED_DAYS_BEFORE))

const testDayEvents = (program: Program): PlannedEvent[] =>
  program.testDays.map((body) => {
    const plannedOn = earlierDay(addDays(body.on, -PLANNED_DAYS_BEFORE), addDays(program.today, -1))
    return { kind: 'test-day', at: morningOf(program, plannedOn), body }
  })
