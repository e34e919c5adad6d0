import type { SheetBody } from '../../../server/contract/sheets/sheets.ts'
import type { StandardBody } from '../../../server/contract/standards/standards.ts'
import type { Random } from '../random.ts'
import { type Execution, type Performance, typicalFault } from './perform.ts'

type MarkedMinor = SheetBody['minors'][number]

/** How a grader sees: how often a fault is overlooked, and how often one is found where there is none. */
export interface Eye {
  readonly overlooks: number
  readonly imagines: number
}

/** How often the mark is left to the gauge, and how often a reading is set aside. */
const LEFT_TO_GAUGE = 0.08
const OVERRIDDEN = 0.03
const REASONS = ['Ground uneven here', 'Gust of wind on the blade', 'Measured late, after the position was left']

interface Seen {
  readonly mark: 'correct' | 'incorrect'
  readonly faults: readonly string[]
  readonly override: string | null
}

/** What a grader writes down of a test that was carried out to its end, all trials called. */
export function observe(random: Random, standard: StandardBody, performance: Performance, eye: Eye): MarkedMinor[] {
  return standard.minors.map(({ code }) => {
    const executions = performance.get(code)!
    const seen = executions.map((execution) => see(random, execution, eye, () => typicalFault(random, standard, code)))
    return {
      code,
      trials: seen.map(({ mark }) => mark),
      faults: seen.flatMap(({ faults }, index) => faults.map((fault) => ({ trial: index + 1, code: fault }))),
      readings: executions.flatMap(({ readings }, index) =>
        readings.map(({ gauge, value, isOutside }) => ({
          trial: index + 1,
          gauge,
          value,
          override: isOutside ? seen[index]!.override : null,
        })),
      ),
    }
  })
}

function see(random: Random, execution: Execution, eye: Eye, imaginedFault: () => string): Seen {
  if (execution.readings.some(({ isOutside }) => isOutside)) {
    if (random.chance(OVERRIDDEN)) return { mark: 'correct', faults: [], override: random.pick(REASONS) }
    return { mark: random.chance(LEFT_TO_GAUGE) ? 'correct' : 'incorrect', faults: [], override: null }
  }
  if (execution.isRight) {
    return random.chance(eye.imagines)
      ? { mark: 'incorrect', faults: [imaginedFault()], override: null }
      : { mark: 'correct', faults: [], override: null }
  }
  return random.chance(eye.overlooks)
    ? { mark: 'correct', faults: [], override: null }
    : { mark: 'incorrect', faults: execution.faults, override: null }
}
