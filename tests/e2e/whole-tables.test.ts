import pg from 'pg'
import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type FilledRecord, fillDatabase } from '../bench/generate/fill-database.ts'
import { openBrowser } from '../support/browser.ts'
import { buildTestApp, type TestApp } from '../support/build-test-app.ts'
import { beginWalk } from '../support/random-walk.ts'
import { seededRandom } from '../support/shuffled.ts'
import { signIn } from '../support/sign-in.ts'
import { type Hearing, hearStatements } from '../support/statements/hear-statements.ts'
import { openPlanner, type Planner } from '../support/statements/read-plans.ts'
import { createTestDatabase } from '../support/test-database.ts'
import { makeTwoPlatoons } from '../support/two-platoons.ts'

/** Enough that what a sheet adds to is found by an index, and reading the whole costs PostgreSQL more. */
const SIZE = { sheets: 5_000, battalions: 4, years: 2 }
const ENDS_ON = '2026-05-20'
const NOW = '2026-06-15T12:00:00Z'
const STEPS = 60

/** What looks at a whole table for a reason, by words of the statement. */
const JUSTIFIED = [
  // Of a standard that changes everybody who was ever tested by it is judged anew.
  /^WITH touched AS \(SELECT id FROM standard/,
]

let test: TestApp
let filled: FilledRecord
let hearing: Hearing
let planner: Planner

beforeAll(async () => {
  const own = await createTestDatabase()
  filled = await fillDatabase(own.url, SIZE, ENDS_ON)
  await renameFilled(own.url)
  test = await buildTestApp({ own, now: NOW })
  hearing = hearStatements()
  planner = await openPlanner(own.url)
})
afterAll(async () => {
  hearing.end()
  await planner.end()
  await test.close()
})

/** So that the names of its accounts and its numbers are free. */
async function renameFilled(url: string): Promise<void> {
  const client = new pg.Client({ connectionString: url })
  await client.connect()
  await client.query(`UPDATE account SET name = 'filled ' || name`)
  await client.query(`UPDATE soldier SET roster_number = 'F' || roster_number`)
  await client.end()
}

/** What was heard since the beginning and reads a long table from end to end, as lines that say where. */
async function wholeReads(): Promise<string[]> {
  const found: string[] = []
  for (const statement of hearing.statements.values()) {
    const text = statement.text.trim().replace(/\s+/g, ' ')
    if (JUSTIFIED.some((words) => words.test(text))) continue
    const reads = await planner.wholeReads(statement)
    if (reads.length > 0) found.push(`${statement.during} reads ${reads.join(', ')}: ${text}`)
  }
  return found
}

describe('on a record of middle size no statement reads a long table from end to end', () => {
  it('of those that write', async () => {
    hearing.during = 'making two platoons'
    await makeTwoPlatoons(test)
    const walk = await beginWalk(test, seededRandom(7))
    for (let step = 0; step < STEPS; step++) {
      hearing.during = `step ${step} of the walk`
      await walk.step()
    }
    expect(hearing.statements.size).toBeGreaterThan(100)
    expect(await wholeReads()).toEqual([])
  })

  it('of those that findings are added up with, of everything and of a unit', async () => {
    const [unitId] = filled.establishment.battalions
    for (const unit of ['', `&unitId=${unitId}`]) {
      for (const about of ['measures', 'trend', 'readings']) {
        for (const days of ['', '&from=2025-11-20&to=2026-03-17']) {
          hearing.during = `${about} ${unit} ${days}`
          await test.office.get(`/api/findings/${about}?attempts=all${unit}${days}`)
        }
      }
    }
    expect(await wholeReads()).toEqual([])
  })

  it('of those that a desk asks', async () => {
    const { battalions, platoons, soldiers } = filled.establishment
    const soldierOf = (role: string) => ({ soldierId: soldiers.find((one) => one.role === role)!.id })
    const desks = {
      office: {},
      administrator: {},
      commander: { unitId: battalions[0]! },
      leader: { unitId: platoons[0]![0]! },
      sponsor: soldierOf('sponsor'),
      grader: { soldierId: filled.grounds[1]!.graders[0]! },
      soldier: soldierOf('candidate'),
    } as const
    const browser = await openBrowser()
    const heard = hearing.statements.size
    for (const [role, whose] of Object.entries(desks)) {
      hearing.during = `the desk of the ${role}`
      const name = `${role} at a desk`
      await test.signedIn({ name, roles: [role as keyof typeof desks], ...whose })
      await openDesk(browser, name)
    }
    await browser.close()
    expect(hearing.statements.size).toBeGreaterThan(heard + 50)
    expect(await wholeReads()).toEqual([])
  })
})

async function openDesk(browser: Browser, name: string): Promise<void> {
  const context = await browser.newContext({ serviceWorkers: 'block' })
  const page = await context.newPage()
  await page.clock.setFixedTime(new Date(NOW))
  const origin = test.app.listeningOrigin
  await signIn(page, origin, name)
  await page.goto(origin, { waitUntil: 'networkidle' })
  await page.locator('#main:not([aria-busy]) h1').waitFor()
  await context.close()
}
