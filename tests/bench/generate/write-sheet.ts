import type { Random } from '../../../seed/generate/random.ts'
import type { SheetBody } from '../../../server/contract/sheets/sheets.ts'
import type { StandardBody } from '../../../server/contract/standards/standards.ts'
import type { PlainDate } from '../../../server/domain/calendar/plain-date.ts'
import type { BenchSoldier } from './establishment.ts'
import { markTest } from './mark-test.ts'
import { uuid } from './uuid.ts'

/** A sheet as a client sends it, and when the server got it. */
export interface WrittenSheet {
  readonly id: string
  readonly body: SheetBody
  readonly receivedAt: string
}

/** Where and with whom a battalion tests. */
export interface TestGround {
  readonly standard: StandardBody
  readonly graders: readonly string[]
  /** Test days by date. */
  readonly testDays: ReadonlyMap<PlainDate, string>
}

const VOID = 0.02
const OUTCOME_ONLY = 0.01
const WITHOUT_SPONSOR = 0.01
const CONDITIONS_BROKEN = 0.01

/** One test or practice of a soldier on a day. */
export function writeSheet(
  random: Random,
  ground: TestGround,
  soldier: BenchSoldier,
  day: PlainDate,
  purpose: SheetBody['purpose'],
): WrittenSheet {
  const { standard } = ground
  const start = random.integer(8 * 60, 15 * 60)
  const end = start + random.integer(25, 40)
  const isTest = purpose === 'test'
  const outcomeOnly = isTest && random.chance(OUTCOME_ONLY)
  const isVoid = isTest && !outcomeOnly && random.chance(VOID)
  const calls = isVoid ? random.integer(0, standard.calls.length - 1) : standard.calls.length
  const marks = outcomeOnly ? { majors: [], minors: [] } : markTest(random, standard, soldier.skill, calls)
  const body: SheetBody = {
    purpose,
    standard: standard.code,
    standardVersion: standard.version,
    arm: soldier.arm,
    candidateId: soldier.id,
    sponsorId: isTest && random.chance(WITHOUT_SPONSOR) ? null : sponsorOn(soldier, day),
    graderId: random.pick(ground.graders.filter((id) => id !== soldier.id)),
    testDayId: isTest ? (ground.testDays.get(day) ?? null) : null,
    secondOf: null,
    startedAt: instant(day, start),
    finishedAt: instant(day, end),
    conditions: { uniform: true, equipment: !(isTest && random.chance(CONDITIONS_BROKEN)), sponsorPresent: true },
    ...marks,
    pauses: [],
    void: isVoid ? { kind: 'weather', text: '' } : null,
    outcomeOnly: outcomeOnly ? (random.chance(0.7) ? 'GO' : 'NO-GO') : null,
    notes: '',
    acknowledged: [],
  }
  return { id: uuid(random), body, receivedAt: instant(day, end + random.integer(1, 90)) }
}

/** The same test by a second grader. */
export function writeSecond(
  random: Random,
  ground: TestGround,
  soldier: BenchSoldier,
  first: WrittenSheet,
): WrittenSheet {
  const others = ground.graders.filter((id) => id !== soldier.id && id !== first.body.graderId)
  const marks = markTest(random, ground.standard, soldier.skill)
  const body = { ...first.body, ...marks, graderId: random.pick(others), secondOf: first.id }
  return { id: uuid(random), body, receivedAt: first.receivedAt }
}

function sponsorOn({ sponsorships }: BenchSoldier, day: PlainDate): string {
  return sponsorships.find(({ from, to }) => from <= day && (to === null || day <= to))!.sponsorId
}

/** In the middle of the day, where the day is the same in all zones that matter. */
function instant(day: PlainDate, minutes: number): string {
  const clock = [Math.floor(minutes / 60), minutes % 60].map((part) => String(part).padStart(2, '0')).join(':')
  return `${day}T${clock}:00-05:00`
}
