import { createContext } from '../server/context/create-context.ts'
import type { Database } from '../server/db/client.ts'
import { dayInZone } from '../server/domain/calendar/day-in-zone.ts'
import { DEMO_ZONE } from './generate/establishment.ts'
import { DEMO_SEED, generateScenario } from './generate/scenario.ts'
import { loadScenario } from './load/load-scenario.ts'

/**
 * Loads the demo (an invented battalion with eighteen months of tests up to now) into an empty database.
 * In: what the app works with, and whom to tell how it goes.
 */
export async function loadDemo({
  db,
  clock,
  timeZone,
  say,
}: {
  db: Database
  clock: () => Date
  timeZone: string
  say: (line: string) => void
}): Promise<void> {
  const today = dayInZone(clock().getTime(), DEMO_ZONE)
  const scenario = generateScenario({ seed: DEMO_SEED, today })
  const sheets = scenario.events.filter(({ kind }) => kind === 'sheet').length
  await loadScenario(createContext({ db, clock, timeZone }), scenario)
  say(`The demo is loaded: ${sheets} grade sheets of eighteen months.`)
}
