import { randomUUID } from 'node:crypto'
import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { readStandard } from '../../seed/catalogue/read-standard.ts'
import { paths } from '../../web/paths.ts'
import { DOORWAYS, type Screen } from '../support/addresses.ts'
import { openBrowser } from '../support/browser.ts'
import { carryOver, makeSoldier, makeUnit, putSheet } from '../support/factories.ts'
import { type Printed, readPrinted } from '../support/printed.ts'
import type { SheetInput } from '../support/sheet-body.ts'
import { seeEverything } from './every-screen.ts'
import { buildWorld, NOW, settled, type World } from './world.ts'

const SIZES = ['A4', 'Letter'] as const
/** Smaller type is not read on a wall, nor in a hand that moves. */
const SMALLEST_PT = 8.5
const FAMILY_NAMES = [
  ...['Amponsah', 'Castellane-Ruiz', 'O’Hanrahan', 'Tran', 'Thibodeaux', 'Osei-Thornton', 'Abrego', 'Thackwell'],
  ...['Clevering', 'Gonçalves', 'Nygård', 'Whitlock', 'Sandhu', 'Desrosiers', 'Sedgeworth', 'Merriden', 'Quarrington'],
  ...['Lockyer', 'Uhlmann', 'Lachapelle', 'Vang', 'Dlamini', 'MacAlister', 'Tsosie', 'Brindlow', 'Yamasaki'],
  ...['Marchbanks', 'Kingsmere', 'Bramhill', 'Okonkwo'],
]
const GIVEN_NAMES = ['Isadora', 'Clement', 'Mai', 'Valentina', 'Bo']

let world: World
let browser: Browser
let session: BrowserContext
let addresses: Map<Screen, string>
let people: string[]
let unitId: string

beforeAll(async () => {
  world = await buildWorld()
  browser = await openBrowser()
  ;({ session, addresses } = await seeEverything(world, browser))
  const { office } = world.app
  for (const code of ['sword-saber-marching', 'rifle-standing']) {
    const { id } = await office.post('/api/standards', readStandard(code))
    await office.post(`/api/standards/${id}/publish`, undefined, 200)
  }
  unitId = await makeUnit(office, {
    name: '3rd Platoon',
    kind: 'platoon',
    parentId: world.platoonId,
    timeZone: 'America/New_York',
  })
  people = []
  for (let index = 0; index < 30; index++) {
    const id = await makeSoldier(office, unitId, {
      grade: ['PFC', 'SGT', 'SSG'][index % 3],
      familyName: FAMILY_NAMES[index],
      givenName: GIVEN_NAMES[index % 5],
      rosterNumber: `CP-${1100 + index}`,
      arms: ['sword'],
    })
    people.push(id)
    if (index < 19) await carryOver(office, id, 'sword')
    else if (index < 24) await carryOver(office, id, 'sword', { awardedOn: '2025-01-10', validThrough: '2026-01-09' })
  }
})
afterAll(async () => {
  await browser?.close()
  await world?.close()
})

async function open(address: string): Promise<Page> {
  const page = await session.newPage()
  await page.clock.setFixedTime(new Date(NOW))
  await page.goto(world.url + address)
  await settled(page)
  await page.emulateMedia({ media: 'print' })
  return page
}

/** The page as it comes out on both sizes of paper. */
async function print(address: string): Promise<Printed[]> {
  const page = await open(address)
  const printed: Printed[] = []
  for (const format of SIZES) printed.push(readPrinted(await page.pdf({ format })))
  await page.close()
  return printed
}

/** That it comes out on so many pages of both sizes, in type that can be read. */
async function expectPages(address: string, pages: number): Promise<void> {
  for (const printed of await print(address)) {
    expect(printed.pages).toBe(pages)
    expect(printed.smallestPt).toBeGreaterThanOrEqual(SMALLEST_PT)
  }
}

describe('on A4 and on letter', () => {
  it('the roster of thirty is one page', async () => {
    const { id } = await world.app.office.post('/api/ceremonies', {
      title: 'Guard of thirty',
      place: 'Parade field',
      unitId,
      startsAt: '2026-06-27T10:00:00-04:00',
      endsAt: '2026-06-27T11:30:00-04:00',
      rehearsals: [{ startsAt: '2026-06-25T09:00:00-04:00', endsAt: '2026-06-25T10:00:00-04:00', place: 'Drill hall' }],
      notes: 'White gloves. Buses leave the motor pool at 08:30; return after the reception.',
      posts: people.map((soldierId, index) => ({
        title: `Sword bearer, file ${(index % 10) + 1}`,
        row: Math.floor(index / 10) + 1,
        place: (index % 10) + 1,
        certification: 'sword',
        soldierId: index === 29 ? null : soldierId,
      })),
      alternates: [people[29]],
    })
    await expectPages(`/ceremonies/${id}/roster`, 1)
  })

  it('who of thirty can stand is one page', () => expectPages(`/stand?unitId=${unitId}`, 1))

  it('the debrief of a test with much to say is one page', async () => {
    const standard = readStandard('sword-saber-marching')
    const sheet: SheetInput = {
      standard: standard.code,
      standardVersion: 1,
      arm: 'sword',
      candidateId: people[20]!,
      sponsorId: people[0]!,
      graderId: people[1]!,
      startedAt: '2026-06-16T09:00:00-04:00',
      finishedAt: '2026-06-16T09:31:00-04:00',
      notes: 'Wind from the left, the command heard late at the far end of the field; repeated once on request.',
      majors: standard.majors.map(({ code }) => ({ code, mark: 'GO' })),
      minors: standard.minors.map(({ code, faults }) => ({
        code,
        trials: ['incorrect', 'correct', 'incorrect'],
        faults: [1, 3].map((trial) => ({ trial, code: faults[trial % faults.length]!.code })),
      })),
    }
    const id = randomUUID()
    await putSheet(world.app.office, sheet, id)
    await expectPages(`/sheets/${id}/debrief`, 1)
  })

  it.each(['sword-saber-standing', 'sword-saber-marching', 'rifle-standing'])(
    'the paper for %s is one sheet, call list and grade sheet a side each',
    (code) => expectPages(`/standards/${code}/paper`, 2),
  )

  it.each(['sword-saber-standing', 'sword-saber-marching', 'rifle-standing'])(
    'the study sheet for %s is one page, also for somebody who was tested in it',
    async (code) => {
      await expectPages(`/standards/${code}/study`, 1)
      await expectPages(`/standards/${code}/study?candidate=${people[20]}`, 1)
    },
  )

  it.each((Object.keys(paths) as Screen[]).filter((screen) => !DOORWAYS.includes(screen)))(
    '%s prints no type too small to read',
    async (screen) => {
      const page = await open(addresses.get(screen)!)
      const { smallestPt } = readPrinted(await page.pdf({ format: 'Letter' }))
      await page.close()
      expect(smallestPt).toBeGreaterThanOrEqual(SMALLEST_PT)
    },
  )
})
