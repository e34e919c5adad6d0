import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { SheetDetail } from '../../../server/contract/sheets/sheets.ts'
import { amend, readBody } from '../../support/amend.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import type { Client } from '../../support/client.ts'
import { countRows } from '../../support/count-rows.ts'
import {
  carryOver,
  type Ground,
  makeGround,
  makeSoldier,
  makeTestSetting,
  putSheet,
  type TestSetting,
} from '../../support/factories.ts'
import {
  GO_MARKS,
  NO_GO_MARKS,
  outcomeOnly,
  type SheetInput,
  STOPPED_MARKS,
  shortStandard,
  times,
} from '../../support/sheet-body.ts'

let test: TestApp
let office: Client
let second: Client
/** Who decides about held sheets, having neither entered nor amended them. */
let third: Client
/** Retests may follow at once; a second version of the standard is in force from May on. */
let ground: Ground
beforeAll(async () => {
  test = await buildTestApp()
  office = test.office
  second = await test.signedIn({ name: 'second' })
  third = await test.signedIn({ name: 'third' })
  ground = await makeGround(office, { waitDays: 0 })
  const draft = shortStandard({ code: ground.standard, version: 2, effectiveFrom: '2026-05-01' })
  const { id } = await office.post('/api/standards', draft)
  await office.post(`/api/standards/${id}/publish`, undefined, 200)
})
afterAll(() => test.close())

const read = (id: string) => office.get<SheetDetail>(`/api/sheets/${id}`)

/** Everything that follows from the sheets of a setting, but what only the record of revisions tells. */
async function whatFollows({ unitId, candidateId, certification }: TestSetting, id: string): Promise<object> {
  const { revisions: _, people: __, ...sheet } = await read(id)
  const days = ['2026-03-02', '2026-04-20']
  return {
    sheet,
    others: await test.sql(
      `SELECT id, state, violations, tolerated, attempts, is_overlapping FROM sheet
      WHERE candidate_id = $1 AND id <> $2 ORDER BY id`,
      [candidateId, id],
    ),
    standings: await test.sql('SELECT * FROM standing WHERE soldier_id = $1 ORDER BY certification_id, from_day', [
      candidateId,
    ]),
    retests: await test.sql('SELECT * FROM retest_span WHERE soldier_id = $1 ORDER BY 1, 2, 3, 4', [candidateId]),
    earned: await test.sql('SELECT * FROM earned_award WHERE soldier_id = $1 ORDER BY 1, 2, 3', [candidateId]),
    figures: await Promise.all(
      ['measures?attempts=first', 'measures?attempts=retest', 'sponsors?attempts=all'].map((kind) =>
        office.get(`/api/findings/${kind}&unitId=${unitId}`),
      ),
    ),
    ready: await Promise.all(
      days.map((day) => office.get(`/api/readiness?unitId=${unitId}&certification=${certification}&asOf=${day}`)),
    ),
  }
}

const CHANGES: [what: string, change: (setting: TestSetting) => Promise<Partial<SheetInput>> | Partial<SheetInput>][] =
  [
    ['its marks', () => NO_GO_MARKS],
    ['its marks, to a test that was stopped', () => STOPPED_MARKS],
    ['its marks, to an outcome only', () => outcomeOnly('GO')],
    ['its day', () => times('2026-04-20')],
    ['its day, to before the others', () => times('2026-02-01')],
    ['its hour', () => times('2026-03-02', 15)],
    ['its arm', () => ({ arm: 'rifle' })],
    ['its arm, to one not carried', () => ({ arm: 'saber' })],
    ['its sponsor', async ({ unitId }) => ({ sponsorId: await makeSoldier(office, unitId) })],
    ['its sponsor, to none', () => ({ sponsorId: null })],
    ['its grader', async ({ unitId }) => ({ graderId: await makeSoldier(office, unitId) })],
    ['its grader, to the candidate', ({ candidateId }) => ({ graderId: candidateId })],
    ['its purpose', () => ({ purpose: 'practice' })],
    ['that it is a second sheet', () => ({ secondOf: '8f6a2f0e-1c1f-4f66-9d43-1f8b8f0a3c14' })],
    ['that it is void', () => ({ void: { kind: 'weather' } })],
    ['its conditions', () => ({ conditions: { uniform: false, equipment: true, sponsorPresent: true } })],
    ['its version', () => ({ standardVersion: 2 })],
    ['its notes', () => ({ notes: 'Rain set in.' })],
  ]

describe.each(CHANGES)('an amendment of %s', (_what, change) => {
  it('and its reverse restore everything', async () => {
    const setting = await makeTestSetting(office, ground)
    const { id } = await putSheet(office, setting.sheet())
    await putSheet(office, setting.sheet({ ...times('2026-03-01'), ...NO_GO_MARKS }))
    await putSheet(office, setting.sheet({ ...times('2026-04-10'), ...NO_GO_MARKS }))
    const body = await readBody(office, id)
    const amended = { ...body, ...(await change(setting)) }
    const before = await whatFollows(setting, id)
    await amend(office, second, id, amended)
    expect(await readBody(office, id)).toMatchObject(amended)
    expect(await whatFollows(setting, id)).not.toEqual(before)

    await amend(office, second, id, body)
    expect(await whatFollows(setting, id)).toEqual(before)
    expect((await read(id)).revisions.map(({ number }) => number)).toEqual([1, 2, 3])
  })
})

describe('an amendment', () => {
  it('keeps every revision with who, when and why', async () => {
    const setting = await makeTestSetting(office)
    const sheet = setting.sheet()
    const stored = await putSheet(office, sheet)
    test.clock.now = new Date(test.clock.now.getTime() + 60_000)
    await amend(office, second, stored.id, { ...sheet, notes: 'The light was poor.' })
    const { revisions, notes } = await read(stored.id)
    expect(notes).toBe('The light was poor.')
    expect(revisions).toMatchObject([
      {
        number: 1,
        at: new Date(test.clock.now.getTime() - 60_000).toISOString(),
        by: 'office',
        reason: null,
        body: { notes: '' },
      },
      { number: 2, at: test.clock.now.toISOString(), by: 'office', reason: 'Misread the paper', body: { notes } },
    ])
    expect(revisions[0]!.result).toMatchObject({ ...stored.result, attempts: [] })
    expect(revisions[1]!.result).toMatchObject(stored.result)
  })

  it('leaves the first body the one that a repeated PUT is compared with', async () => {
    const setting = await makeTestSetting(office)
    const sheet = setting.sheet()
    const { id } = await putSheet(office, sheet)
    const amended = { ...sheet, notes: 'Amended.' }
    await amend(office, second, id, amended)
    expect(await office.put(`/api/sheets/${id}`, sheet, 200)).toMatchObject({ id, state: 'counted' })
    await office.refused(409, 'PUT', `/api/sheets/${id}`, amended)
    expect((await read(id)).notes).toBe('Amended.')
  })

  it('changes neither candidate nor standard', async () => {
    const setting = await makeTestSetting(office)
    const { id } = await putSheet(office, setting.sheet())
    const other = await makeTestSetting(office)
    const before = await countRows(test)
    const sheet = setting.sheet({ candidateId: other.candidateId, standard: other.standard })
    const problem = await office.refused(422, 'POST', `/api/sheets/${id}/amendments`, { reason: 'Wrong man', sheet })
    expect(problem.errors?.map(({ pointer, rule }) => [pointer, rule])).toEqual([
      ['/sheet/candidateId', 'not-amendable'],
      ['/sheet/standard', 'not-amendable'],
    ])
    const nobody = setting.sheet({ graderId: '8f6a2f0e-1c1f-4f66-9d43-1f8b8f0a3c15' })
    const unknown = await office.refused(422, 'POST', `/api/sheets/${id}/amendments`, {
      reason: 'Wrong',
      sheet: nobody,
    })
    expect(unknown.errors).toMatchObject([{ pointer: '/sheet/graderId', rule: 'unknown-person' }])
    const unfinished = setting.sheet({ majors: [] })
    const open = await office.refused(422, 'POST', `/api/sheets/${id}/amendments`, {
      reason: 'Wrong',
      sheet: unfinished,
    })
    expect(open.type).toBe('urn:reviewstand:problem:unfinished')
    for (const reason of ['', '  ']) {
      await office.refused(422, 'POST', `/api/sheets/${id}/amendments`, { reason, sheet: setting.sheet() })
    }
    expect(await countRows(test)).toEqual(before)
  })

  it('is judged again, and what was waived stays waived', async () => {
    const setting = await makeTestSetting(office)
    const sheet = setting.sheet({ sponsorId: null })
    const { id } = await putSheet(office, sheet)
    await third.post(`/api/sheets/${id}/decision`, { decision: 'count', reason: 'Seen' }, 200)
    const still = await amend(office, second, id, { ...sheet, notes: 'Amended.' })
    expect(still).toMatchObject({ state: 'counted', violations: [{ rule: 'no-sponsor' }] })
    const more = await amend(office, second, id, { ...sheet, arm: 'saber' })
    expect(more.state).toBe('held')
    expect(more.violations.map(({ rule }) => rule)).toEqual(['no-sponsor', 'arm-not-allowed'])
    const { waived, flags } = await read(id)
    expect([waived, flags]).toEqual([['no-sponsor'], []])
    await third.post(`/api/sheets/${id}/decision`, { decision: 'count', reason: 'Seen again' }, 200)
    expect(await read(id)).toMatchObject({
      state: 'counted',
      waived: ['no-sponsor', 'arm-not-allowed'],
      decisions: [{ waived: ['no-sponsor'] }, { waived: ['no-sponsor', 'arm-not-allowed'] }],
    })
  })

  it('of a held sheet may free it', async () => {
    const setting = await makeTestSetting(office)
    const sheet = setting.sheet()
    const { id } = await putSheet(office, { ...sheet, graderId: setting.candidateId })
    expect(await amend(office, second, id, sheet)).toMatchObject({ state: 'counted', violations: [] })
  })

  it('of a rejected sheet is judged anew, and rejected again where it says what was rejected', async () => {
    const setting = await makeTestSetting(office)
    const good = setting.sheet()
    const bad = { ...good, sponsorId: null }
    const { id } = await putSheet(office, bad)
    await third.post(`/api/sheets/${id}/decision`, { decision: 'reject', reason: 'Not a test' }, 200)
    expect(await amend(office, second, id, good)).toMatchObject({ state: 'counted' })
    expect(await amend(office, second, id, bad)).toMatchObject({ state: 'rejected' })
    expect(await amend(office, second, id, { ...bad, notes: 'Another' })).toMatchObject({ state: 'held' })
  })

  it('of a flagged sheet to where it is not, and the reverse, restore the flag', async () => {
    const setting = await makeTestSetting(office)
    const sheet = setting.sheet()
    const { id } = await putSheet(office, sheet)
    await putSheet(office, setting.sheet({ ...times('2026-03-01'), ...NO_GO_MARKS }))
    expect(await read(id)).toMatchObject({ state: 'counted', flags: ['too-early'] })
    const body = await readBody(office, id)
    const before = await whatFollows(setting, id)
    await amend(office, second, id, { ...body, ...times('2026-03-20') })
    expect(await read(id)).toMatchObject({ state: 'counted', flags: [] })
    await amend(office, second, id, body)
    expect(await whatFollows(setting, id)).toEqual(before)
  })

  it('does not slip a coach in as grader where another coach was flagged', async () => {
    const setting = await makeTestSetting(office)
    const { candidateId, graderId, certification, unitId } = setting
    const coach = await makeSoldier(office, unitId)
    await carryOver(office, coach, certification)
    const sheet = setting.sheet()
    const { id } = await putSheet(office, sheet)
    for (const sponsorId of [graderId, coach]) {
      await office.post(`/api/soldiers/${candidateId}/sponsorships`, { sponsorId, from: '2026-02-01' })
    }
    expect(await read(id)).toMatchObject({ state: 'counted', flags: ['grader-coached'] })
    expect(await amend(office, second, id, { ...sheet, graderId: coach })).toMatchObject({ state: 'held' })
    expect(await amend(office, second, id, sheet)).toMatchObject({ state: 'counted' })
  })

  it('moves the awards it made, and all that hangs on them', async () => {
    const setting = await makeTestSetting(office)
    const { candidateId, unitId, certification } = setting
    const { id } = await putSheet(office, setting.sheet())
    const other = await makeSoldier(office, unitId)
    await office.post(`/api/soldiers/${other}/sponsorships`, { sponsorId: candidateId, from: '2026-01-01' })
    const hanging = await putSheet(
      office,
      setting.sheet({ candidateId: other, sponsorId: candidateId, ...times('2026-03-05') }),
    )
    expect(hanging.state).toBe('counted')
    await amend(office, second, id, setting.sheet({ ...GO_MARKS, ...times('2026-03-06') }))
    expect(await read(hanging.id)).toMatchObject({ state: 'counted', flags: ['sponsor-not-certified'] })
    const [award] = await test.sql('SELECT awarded_on::text AS on FROM earned_award WHERE soldier_id = $1', [
      candidateId,
    ])
    expect(award).toEqual({ on: '2026-03-06' })
    await carryOver(office, candidateId, certification, { awardedOn: '2026-03-01' })
    expect(await read(hanging.id)).toMatchObject({ flags: [] })
  })
})
