import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { createOwnDatabase, createOwnStandby, type OwnDatabase } from '../../support/own-database.ts'

let primary: OwnDatabase
let standby: OwnDatabase
let test: TestApp
beforeAll(async () => {
  primary = await createOwnDatabase()
  standby = await createOwnStandby(primary)
  test = await buildTestApp({ own: { url: primary.url, close: async () => {} }, standbys: standby.url })
})
afterAll(async () => {
  test.takeUnexpected() // That a database was lost is logged.
  await test.close()
  await standby.close()
  await primary.close()
})

const replaying = (does: 'pause' | 'resume') => standby.asAdmin(`SELECT pg_wal_replay_${does}()`)
const makeUnit = (name: string) => test.office.post('/api/units', { name, kind: 'unit' })
const unitNames = async () => {
  const { items } = await test.office.get<{ items: { name: string }[] }>('/api/units')
  return items.map(({ name }) => name)
}

/** Questions that the standby has answered so far. */
async function answered(): Promise<number> {
  const { body } = await test.nobody.tries('GET', '/metrics')
  return Number(/^reviewstand_standby_answers\{standby="1"\} (\d+)$/m.exec(body as string)?.[1])
}

/** Whether the standby answers this account's next questions, asked until it does. */
async function standbyAnswers(): Promise<void> {
  const before = await answered()
  while ((await answered()) === before) await unitNames()
}

async function primaryAnswersAlone(): Promise<void> {
  const before = await answered()
  await unitNames()
  expect(await answered()).toBe(before)
}

describe('a standby', () => {
  it('answers what only reads, and with what was written right before', async () => {
    for (const name of ['Alpha', 'Bravo', 'Charlie']) {
      await makeUnit(name)
      expect(await unitNames()).toContain(name)
    }
    await standbyAnswers()
  })

  it('is not asked while it has not replayed what was written, by whomever', async () => {
    await replaying('pause')
    try {
      const other = await test.signedIn({ name: 'other-office' })
      await other.post('/api/units', { name: 'Delta', kind: 'unit' })
      await primaryAnswersAlone()
      expect(await unitNames()).toContain('Delta')
    } finally {
      await replaying('resume')
    }
    await standbyAnswers()
    expect(await unitNames()).toContain('Delta')
  })

  it('never lets an account see less than it saw, while it falls behind and comes up again', async () => {
    let most = 0
    for (let round = 0; round < 12; round += 1) {
      if (round % 3 === 0) await replaying('pause')
      if (round % 3 === 2) await replaying('resume')
      await makeUnit(`Round ${round}`)
      for (let look = 0; look < 3; look += 1) {
        const { length } = await unitNames()
        expect(length).toBeGreaterThanOrEqual(most)
        most = length
      }
    }
    await standbyAnswers()
  })

  it('that is gone leaves the primary to answer, and is asked again once it is back', async () => {
    await standby.kill()
    expect(await unitNames()).toContain('Alpha')
    await primaryAnswersAlone()
    await standby.start()
    await standbyAnswers()
  })

  it('that was promoted has a history of its own, and is asked no more', async () => {
    await standbyAnswers()
    await standby.asAdmin('SELECT pg_promote()')
    await standby.asAdmin(`UPDATE unit SET name = 'Elsewhere' WHERE name = 'Alpha'`)
    await primaryAnswersAlone()
    expect(await unitNames()).not.toContain('Elsewhere')
  })
})
