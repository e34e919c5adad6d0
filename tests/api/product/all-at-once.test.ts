import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { expectConsistent } from '../../support/by-the-letter/expect-consistent.ts'
import { carryOver, type Ground, makeGround, makeSoldier, makeUnit } from '../../support/factories.ts'
import { beginWalk } from '../../support/random-walk.ts'
import { GO_MARKS, NO_GO_MARKS, type SheetInput, STOPPED_MARKS, times } from '../../support/sheet-body.ts'
import { seededRandom, shuffled } from '../../support/shuffled.ts'

describe('all at once', () => {
  let test: TestApp
  let ground: Ground
  beforeAll(async () => {
    test = await buildTestApp()
    ground = await makeGround(test.office, { waitDays: 0 })
  })
  afterAll(() => test.close())

  const sheetOf = (candidateId: string, graderId: string, sponsorId: string | null, more: Partial<SheetInput>) => ({
    standard: ground.standard,
    standardVersion: 1,
    arm: 'sword',
    candidateId,
    graderId,
    sponsorId,
    ...more,
  })

  /** Sends each twice, all at the same time, and expects every one to be stored once. */
  async function storm(sheets: readonly object[], seed: number): Promise<void> {
    const named = sheets.map((sheet) => ({ id: randomUUID(), sheet }))
    const sent = shuffled([...named, ...named], seededRandom(seed))
    const answers = await Promise.all(
      sent.map(async ({ id, sheet }) => ({ id, ...(await test.office.tries('PUT', `/api/sheets/${id}`, sheet)) })),
    )
    for (const { id } of named) {
      const own = answers.filter((answer) => answer.id === id)
      expect(own.map(({ status, body }) => (status < 300 ? status : JSON.stringify(body))).sort()).toEqual([200, 201])
    }
    const stored = await test.sql<{ id: string }>('SELECT id FROM sheet WHERE id = ANY($1)', [
      named.map(({ id }) => id),
    ])
    expect(stored).toHaveLength(sheets.length)
    expect(test.takeUnexpected()).toEqual([])
  }

  it('forty sheets of ten candidates who share graders and sponsors are each stored once and counted right', async () => {
    const { office } = test
    const platoons = await Promise.all(
      [1, 2].map(() => makeUnit(office, { kind: 'platoon', parentId: ground.unitId, timeZone: null })),
    )
    const staff = await Promise.all(Array.from({ length: 4 }, () => makeSoldier(office, ground.unitId)))
    for (const id of staff) await carryOver(office, id, ground.certification)
    const candidates = await Promise.all(
      Array.from({ length: 10 }, (_, index) => makeSoldier(office, platoons[index % 2]!)),
    )
    for (const [index, id] of candidates.entries()) {
      const body = { sponsorId: staff[index % 2]!, from: '2026-01-01' }
      await office.post(`/api/soldiers/${id}/sponsorships`, body)
    }
    const kinds = [GO_MARKS, NO_GO_MARKS, STOPPED_MARKS]
    const sheets = Array.from({ length: 40 }, (_, index) => {
      const candidate = index % 10
      const day = `2026-03-${String(2 + Math.floor(index / 10) * 3).padStart(2, '0')}`
      const more = { ...times(day, 8 + candidate), ...kinds[index % 3] }
      return sheetOf(candidates[candidate]!, staff[2 + (index % 2)]!, staff[candidate % 2]!, more)
    })
    await storm(sheets, 1)
    await expectConsistent(test, [{}, ...[ground.unitId, ...platoons].map((unitId) => ({ unitId }))])
  })

  it('people who test, sponsor and grade each other crosswise do not lock each other out', async () => {
    const { office } = test
    const ring = await Promise.all(Array.from({ length: 6 }, () => makeSoldier(office, ground.unitId)))
    for (const [index, id] of ring.entries()) {
      await office.post(`/api/soldiers/${id}/sponsorships`, { sponsorId: ring[(index + 1) % 6]!, from: '2026-01-01' })
    }
    const crosswise = Array.from({ length: 36 }, (_, index) => {
      const [candidate, round] = [index % 6, Math.floor(index / 6)]
      const more = { ...times(`2026-04-${String(1 + round).padStart(2, '0')}`, 8 + candidate), ...GO_MARKS }
      return sheetOf(ring[candidate]!, ring[(candidate + 2 + (round % 4)) % 6]!, ring[(candidate + 1) % 6]!, more)
    })
    await storm(crosswise, 2)
    await expectConsistent(test, [{}])
    await Promise.all([
      ...ring.map((id) => carryOver(office, id, ground.certification, { awardedOn: '2026-03-31' })),
      ...ring.map((id) => office.post(`/api/soldiers/${id}/changes`, { from: '2026-04-03', arms: ['sword'] }, 200)),
      ...ring.map((id) => office.post(`/api/soldiers/${id}/reviews`, { standard: ground.standard, on: '2026-04-02' })),
      office.post('/api/certifications', {
        code: ground.certification,
        title: 'New terms',
        standards: [ground.standard],
        validityMonths: 1,
        effectiveFrom: '2026-04-04',
      }),
    ])
    await expectConsistent(test, [{}])
    const held = await test.sql(`SELECT id FROM sheet WHERE state = 'held' AND grader_id = ANY($1)`, [ring])
    expect(held.length).toBeLessThan(36)
  })

  it('whatever happens, five things at a time, what is stored and counted is what the rules make of it', async () => {
    const own = await buildTestApp({ now: '2026-07-01T12:00:00Z' })
    const walk = await beginWalk(own, seededRandom(3), { clashes: true })
    for (let round = 0; round < 12; round++) await Promise.all(Array.from({ length: 5 }, () => walk.step()))
    expect(own.takeUnexpected()).toEqual([])
    await expectConsistent(own, [{}, ...walk.units.map((unitId) => ({ unitId }))])
    await own.close()
  })
})
