import { createRandom } from '../../../seed/generate/random.ts'
import { fitUnit } from '../../../server/domain/ability/unit-fit.ts'
import { drawUnit, LAYOUT, WORLDS } from '../../reference/ability/support/worlds.ts'

/** One fit of the model of ability. */
export interface FitTime {
  readonly sheets: number
  readonly graders: number
  readonly cpuSeconds: number
}

export interface FitPlan {
  readonly sheets: readonly number[]
}

/** A candidate of the drawn unit has about so many sheets, a grader judges about so many. */
const SHEETS_A_CANDIDATE = 2.2
const SHEETS_A_GRADER = 150

/** Fits made-up units of about so many sheets in this process. Seeded, so that every run fits the same. */
export function timeFits({ sheets }: FitPlan): FitTime[] {
  return sheets.map((wanted) => {
    const graders = Math.ceil(wanted / SHEETS_A_GRADER)
    const world = { ...WORLDS[0]!, candidates: Math.round(wanted / SHEETS_A_CANDIDATE), graders }
    const { histories } = drawUnit(world, createRandom(5))
    const before = process.cpuUsage()
    const fit = fitUnit(LAYOUT, histories, null)
    const { user, system } = process.cpuUsage(before)
    return { sheets: fit.sheets, graders, cpuSeconds: (user + system) / 1e6 }
  })
}
