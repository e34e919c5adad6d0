import { addDays, type PlainDate } from '../../../server/domain/calendar/plain-date.ts'
import type { ConductedTest } from './conduct-test.ts'
import { FLAWS, type Flaw } from './flaws.ts'
import { isCertifiedByNow, type Program } from './program.ts'
import type { Seat } from './seats.ts'

const FLAWED = 0.018
const LEFT_TODAY = 0.5
const OLD_FORM = 0.15
const OLD_FORMS_DAYS = 35

const FLAWS_BY_CHANCE = (Object.keys(FLAWS) as Flaw[]).filter((flaw) => FLAWS[flaw].weight > 0)

/**
 * What is wrong with the sheet of a test, or null: first what lies in the circumstances, then what has to be left
 * undecided, then what comes by chance.
 */
export function drawFlaw(program: Program, day: PlainDate, seat: Seat, test: ConductedTest): Flaw | null {
  const { random, undecided } = program
  if (test.ending === 'void after failure') return 'void-after-failure'
  if (test.ending === 'void') return null
  if (seat.flaw) return seat.flaw
  if (!isCertifiedByNow(program, seat.sponsor, seat.standard, day)) return 'sponsor-not-certified'
  const { version, effectiveFrom } = test.standard
  if (version > 1 && day < addDays(effectiveFrom, OLD_FORMS_DAYS) && random.chance(OLD_FORM))
    return 'standard-not-in-force'
  const left = FLAWS_BY_CHANCE.filter((flaw) => undecided.has(flaw))
  if (left.length > 0 && random.chance(LEFT_TODAY)) return random.pick(left)
  return random.chance(FLAWED) ? random.weighted(FLAWS_BY_CHANCE.map((flaw) => [flaw, FLAWS[flaw].weight])) : null
}
