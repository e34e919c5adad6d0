import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { z } from 'zod'
import type { SheetDetail, SheetPage, StoredSheet } from '../../../server/contract/sheets/sheets.ts'
import { amend } from '../../support/amend.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { type Ground, makeGround, makeSoldier, makeTestSetting, makeUnit, putSheet } from '../../support/factories.ts'
import { pagesOf } from '../../support/pages-of.ts'
import { NO_GO_MARKS, outcomeOnly, STOPPED_MARKS, times } from '../../support/sheet-body.ts'

type Summary = z.infer<typeof SheetPage>['items'][number]

let test: TestApp
let ground: Ground
beforeAll(async () => {
  test = await buildTestApp({ timeZone: 'America/New_York' })
  ground = await makeGround(test.office)
})
afterAll(() => test.close())

const read = (id: string) => test.office.get<SheetDetail>(`/api/sheets/${id}`)

describe('a sheet that is stored', () => {
  it('is answered with how it stands', async () => {
    const setting = await makeTestSetting(test.office, ground)
    const id = randomUUID()
    // By rule 1: "draw" is GO, "halt" has one correct and one that its gauge makes incorrect, "turn" was not reached.
    expect(await test.office.put<StoredSheet>(`/api/sheets/${id}`, setting.sheet(STOPPED_MARKS))).toEqual({
      id,
      state: 'counted',
      arrivedLate: false,
      result: {
        ending: 'stopped',
        outcome: 'NO-GO',
        minimum: 2,
        go: 1,
        noGo: 0,
        notTested: 2,
        minors: [
          { code: 'draw', outcome: 'GO', correct: 2, incorrect: 1, faults: [{ trial: 2, code: 'slow' }] },
          { code: 'halt', outcome: 'not tested', correct: 1, incorrect: 1, faults: [{ trial: 2, code: 'tip-high' }] },
          { code: 'turn', outcome: 'not tested', correct: 0, incorrect: 0, faults: [] },
        ],
        attempts: [{ certification: ground.certification, number: 1 }],
      },
      violations: [],
    })
  })

  it('is read as it was sent, with all that is known of it', async () => {
    const setting = await makeTestSetting(test.office, ground)
    const testDay = await test.office.post('/api/test-days', {
      on: '2026-03-02',
      unitId: ground.unitId,
      place: 'Field',
    })
    const sheet = setting.sheet({
      testDayId: testDay.id,
      notes: 'Dry.',
      pauses: [{ from: '2026-03-02T09:40:00Z', to: '2026-03-02T09:45:00Z', note: 'Cease' }],
      acknowledged: [{ soldierId: setting.candidateId, at: '2026-03-02T10:05:00+01:00' }],
    })
    const stored = await putSheet(test.office, sheet)
    const minors = sheet.minors!.map((minor) => ({ faults: [], readings: [], ...minor }))
    const majors = sheet.majors!.map((major) => ({ faults: [], note: null, ...major }))
    const body = {
      ...sheet,
      purpose: 'test',
      secondOf: null,
      conditions: { uniform: true, equipment: true, sponsorPresent: true },
      minors,
      majors,
      void: null,
      outcomeOnly: null,
    }
    const name = expect.stringMatching(/^SGT Ashford, No\. \d+$/)
    expect(await read(stored.id)).toEqual({
      ...body,
      ...stored,
      day: '2026-03-02',
      receivedAt: test.clock.now.toISOString(),
      appealableUntil: new Date(test.clock.now.getTime() + 14 * 86_400_000).toISOString(),
      flags: [],
      waived: [],
      people: { [setting.candidateId]: name, [setting.sponsorId]: name, [setting.graderId]: name },
      revisions: [
        {
          number: 1,
          at: test.clock.now.toISOString(),
          by: 'office',
          reason: null,
          body,
          result: stored.result,
        },
      ],
      decisions: [],
      appeals: [],
    })
  })

  it('is refused where it does not exist', async () => {
    await test.office.refused(404, 'GET', `/api/sheets/${randomUUID()}`)
  })
})

describe('the attempt number', () => {
  it('of those after a late sheet goes up', async () => {
    const setting = await makeTestSetting(test.office, ground)
    const numbers = async (ids: string[]) =>
      Promise.all(ids.map(async (id) => (await read(id)).result.attempts.map(({ number }) => number)))
    const later = [
      await putSheet(test.office, setting.sheet({ ...NO_GO_MARKS, ...times('2026-03-10') })),
      await putSheet(test.office, setting.sheet({ ...NO_GO_MARKS, ...times('2026-03-20') })),
    ].map(({ id }) => id)
    expect(await numbers(later)).toEqual([[1], [2]])
    const late = await putSheet(test.office, setting.sheet({ ...NO_GO_MARKS, ...times('2026-03-01') }))
    expect(await numbers([late.id, ...later])).toEqual([[1], [2], [3]])
  })

  it('is none of what is no attempt', async () => {
    const setting = await makeTestSetting(test.office, ground)
    for (const more of [
      { void: { kind: 'weather' as const } },
      { purpose: 'practice' as const },
      { secondOf: randomUUID() },
    ]) {
      expect((await putSheet(test.office, setting.sheet(more))).result.attempts).toEqual([])
    }
  })
})

describe('the day of a sheet', () => {
  const dayOf = async (candidateId: string, finishedAt: string) => {
    const setting = await makeTestSetting(test.office, ground)
    const body = setting.sheet({ candidateId, ...outcomeOnly('NO-GO'), startedAt: finishedAt, finishedAt })
    return (await read((await putSheet(test.office, body)).id)).day
  }

  it('is that of the zone of the candidate’s unit, its own or from above, at the top that of the server', async () => {
    const top = await makeUnit(test.office, { timeZone: null })
    const berlin = await makeUnit(test.office, { kind: 'company', parentId: top, timeZone: 'Europe/Berlin' })
    const below = await makeUnit(test.office, { kind: 'platoon', parentId: berlin, timeZone: null })
    const [atTop, inBerlin] = [await makeSoldier(test.office, top), await makeSoldier(test.office, below)]
    // New York is at UTC-5, from 8 March 2026 on at UTC-4; Berlin at UTC+1, from 29 March on at UTC+2 (tz database).
    expect(await dayOf(atTop, '2026-03-02T04:59:59Z')).toBe('2026-03-01')
    expect(await dayOf(atTop, '2026-03-02T05:00:00Z')).toBe('2026-03-02')
    expect(await dayOf(atTop, '2026-03-09T03:59:59Z')).toBe('2026-03-08')
    expect(await dayOf(atTop, '2026-03-09T04:00:00Z')).toBe('2026-03-09')
    expect(await dayOf(inBerlin, '2026-03-02T22:59:59.999Z')).toBe('2026-03-02')
    expect(await dayOf(inBerlin, '2026-03-02T23:00:00Z')).toBe('2026-03-03')
    expect(await dayOf(inBerlin, '2026-03-29T22:00:00Z')).toBe('2026-03-30')
    expect(await dayOf(inBerlin, '2026-03-02T17:30:00-05:30')).toBe('2026-03-03')
  })

  it('goes by the unit of the UTC day, and is kept when the past of the candidate is mended', async () => {
    const [west, east] = [
      await makeUnit(test.office, { timeZone: 'Pacific/Honolulu' }),
      await makeUnit(test.office, { timeZone: 'Pacific/Auckland' }),
    ]
    const candidateId = await makeSoldier(test.office, west, { from: '2026-01-01' })
    await test.office.post(`/api/soldiers/${candidateId}/changes`, { from: '2026-03-02', unitId: east }, 200)
    expect(await dayOf(candidateId, '2026-03-01T23:30:00Z')).toBe('2026-03-01')
    expect(await dayOf(candidateId, '2026-03-02T00:30:00Z')).toBe('2026-03-02')
    expect(await dayOf(candidateId, '2026-03-02T12:00:00Z')).toBe('2026-03-03')
    const setting = await makeTestSetting(test.office, ground)
    const at = { startedAt: '2026-03-02T12:00:00Z', finishedAt: '2026-03-02T12:00:00Z' }
    const sheet = setting.sheet({ candidateId, ...outcomeOnly('NO-GO'), ...at })
    const { id } = await putSheet(test.office, sheet)
    await test.office.post(`/api/soldiers/${candidateId}/changes`, { from: '2026-02-20', unitId: west }, 200)
    await test.office.post(`/api/soldiers/${candidateId}/changes`, { from: '2026-03-02', unitId: west }, 200)
    expect((await read(id)).day).toBe('2026-03-03')
    const second = await test.signedIn({ name: 'second' })
    await amend(test.office, second, id, { ...sheet, notes: 'Worked out anew with the revision.' })
    expect((await read(id)).day).toBe('2026-03-02')
  })

  it('of somebody outside the strength goes by the nearest unit they were in', async () => {
    const east = await makeUnit(test.office, { timeZone: 'Pacific/Auckland' })
    const candidateId = await makeSoldier(test.office, east, { from: '2026-01-01' })
    await test.office.post(`/api/soldiers/${candidateId}/changes`, { from: '2026-02-01', left: 'other' }, 200)
    expect(await dayOf(candidateId, '2025-12-01T12:00:00Z')).toBe('2025-12-02')
    expect(await dayOf(candidateId, '2026-03-01T12:00:00Z')).toBe('2026-03-02')
  })
})

describe('the list of sheets', () => {
  it('has the latest first, in pages, each once, also of one instant and of fractions of a second', async () => {
    const setting = await makeTestSetting(test.office, ground)
    const instants = [
      '10:00:00Z',
      '10:00:00Z',
      '10:00:00.001Z',
      '10:00:00.999Z',
      '09:59:59.999Z',
      '10:00:00.123Z',
      '10:00:00.1Z',
    ]
    for (const instant of instants) {
      const finishedAt = `2026-03-02T${instant}`
      await putSheet(test.office, setting.sheet({ startedAt: finishedAt, finishedAt }))
    }
    const path = `/api/sheets?soldierId=${setting.candidateId}`
    const all = await pagesOf<Summary>(test.office, path, 500)
    const place = ({ id, body }: Summary) => [Date.parse(body.finishedAt), id] as const
    const inOrder = [...all].sort((a, b) => place(b)[0] - place(a)[0] || (place(a)[1] < place(b)[1] ? 1 : -1))
    expect(all).toHaveLength(instants.length)
    expect(all.map(({ id }) => id)).toEqual(inOrder.map(({ id }) => id))
    for (const limit of [1, 2, 3]) expect(await pagesOf(test.office, path, limit)).toEqual(all)
  })

  it('is of a candidate, a state, a purpose', async () => {
    const setting = await makeTestSetting(test.office, ground)
    const counted = await putSheet(test.office, setting.sheet())
    const held = await putSheet(test.office, setting.sheet({ sponsorId: null, ...times('2026-03-03') }))
    const practice = await putSheet(test.office, setting.sheet({ purpose: 'practice', ...times('2026-03-04') }))
    const ids = async (query: string) =>
      (await pagesOf<Summary>(test.office, `/api/sheets?soldierId=${setting.candidateId}&${query}`, 500)).map(
        ({ id }) => id,
      )
    expect(await ids('')).toEqual([practice.id, held.id, counted.id])
    expect(await ids('state=held')).toEqual([held.id])
    expect(await ids('state=counted')).toEqual([practice.id, counted.id])
    expect(await ids('state=rejected')).toEqual([])
    expect(await ids('purpose=practice')).toEqual([practice.id])
    expect(await ids('purpose=test&state=counted')).toEqual([counted.id])
    await test.office.refused(400, 'GET', '/api/sheets?state=lost')
  })

  it('says of each what the sheet itself says', async () => {
    const setting = await makeTestSetting(test.office, ground)
    const { id } = await putSheet(test.office, setting.sheet({ sponsorId: null }))
    const [summary] = await pagesOf<Summary>(test.office, `/api/sheets?soldierId=${setting.candidateId}`, 1)
    const { state, day, receivedAt, flags, result, violations, people, revisions } = await read(id)
    const { body } = revisions[0]!
    expect(summary).toEqual({ id, state, day, receivedAt, flags, result, violations, people, body, revision: 1 })
  })
})
