import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { FirstSteps } from '../../../server/contract/first-steps/first-steps.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { makeSoldier, makeTestSetting, makeUnit } from '../../support/factories.ts'

let test: TestApp
beforeAll(async () => {
  test = await buildTestApp()
})
afterAll(() => test.close())

const read = () => test.office.get<FirstSteps>('/api/first-steps')
const doneOf = ({ steps }: FirstSteps) => steps.filter(({ done }) => done).map(({ step }) => step)

describe('the first steps of a unit', () => {
  it('are all open in an empty database, in the order in which to do them', async () => {
    const { steps, complete } = await read()
    expect(complete).toBe(false)
    expect(doneOf({ steps, complete })).toEqual([])
    expect(steps.map(({ step }) => step).slice(0, 3)).toEqual(['units', 'arms-and-grades', 'standards'])
  })

  it('tick themselves from the data', async () => {
    const unit = await makeUnit(test.office)
    expect(doneOf(await read())).toEqual(['units'])
    await makeSoldier(test.office, unit)
    // A grade that came in with somebody waits to be confirmed.
    expect(doneOf(await read())).toEqual(['units', 'roster'])
    expect((await read()).steps.find(({ step }) => step === 'arms-and-grades')).toMatchObject({ count: 0, waiting: 3 })
    await makeTestSetting(test.office)
    expect(doneOf(await read())).toEqual(
      expect.arrayContaining(['units', 'standards', 'certifications', 'roster', 'sponsors']),
    )
  })

  it('are complete once what is left is done without, and are found again', async () => {
    const open = (await read()).steps.filter(({ done }) => !done)
    for (const { step } of open) await test.office.put(`/api/first-steps/${step}`, { skipped: true }, 200)
    expect(await read()).toMatchObject({ complete: true })
    await test.office.put('/api/first-steps/ceremonies', { skipped: true }, 200)
    expect(await test.office.put<FirstSteps>('/api/first-steps/ceremonies', { skipped: false }, 200)).toMatchObject({
      complete: false,
    })
    const entries = await test.sql("SELECT after FROM record_entry WHERE action = 'first-step.skipped' ORDER BY seq")
    expect(entries).toHaveLength(open.length + 1)
    await test.office.refused(400, 'PUT', '/api/first-steps/parade', { skipped: true })
  })

  it('are the office’s business', async () => {
    const leader = await test.signedIn({ name: 'leads', roles: ['leader'], unitId: await makeUnit(test.office) })
    await leader.refused(403, 'GET', '/api/first-steps')
    await leader.refused(403, 'PUT', '/api/first-steps/units', { skipped: true })
  })
})
