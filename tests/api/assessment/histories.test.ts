import fs from 'node:fs'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { SheetDetail, StoredSheet } from '../../../server/contract/sheets/sheets.ts'
import type { Readiness, Retest } from '../../../server/contract/standards/certifications.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { makeSoldier, makeStandard, makeUnit } from '../../support/factories.ts'
import { readStatuses } from '../../support/read-statuses.ts'
import { seededRandom, shuffled } from '../../support/shuffled.ts'

interface History {
  readonly name: string
  readonly timeZone: string
  readonly certification: { readonly code: string; readonly standards: readonly string[] }
  readonly sheets: readonly {
    readonly id: string
    readonly standard: string
    readonly arm: string
    readonly finishedAt: string
    readonly outcome: 'GO' | 'NO-GO' | 'VOID'
  }[]
  readonly awards: readonly { readonly awardedOn: string; readonly validThrough: string }[]
  readonly withdrawals: readonly string[]
  readonly suspensions: readonly { readonly from: string; readonly lift: string | null }[]
  readonly reviews: readonly { readonly standard: string; readonly on: string }[]
  readonly attempts: Readonly<Record<string, number>>
  readonly asOf: readonly { readonly day: string; readonly status: object; readonly retests: readonly object[] }[]
}

/** Soldiers' histories with statuses, retests and attempt numbers, worked out by an independent implementation. */
const { cases } = JSON.parse(fs.readFileSync(new URL('../../cases/histories.json', import.meta.url), 'utf8')) as {
  cases: History[]
}

/** Outcomes are all that histories tell. */
const ONE_MEASURE = { majors: [], minors: [{ code: 'all', title: 'All of it' }], gauges: [] }

/** The same history in standards of its own, so that the others need not be judged again for its certification. */
const withOwnStandards = (history: History): History =>
  JSON.parse(JSON.stringify(history).replace(/"(standing|marching|inspection)"/g, `"$1-${history.name}"`))

describe('histories sent in mixed order', () => {
  let test: TestApp
  let checked = 0
  let checkedInReadiness = 0
  const random = seededRandom(4180)

  beforeAll(async () => {
    test = await buildTestApp()
  })
  afterAll(() => test.close())

  /** Everything that happened, as requests. Awards of one day count in order of entry, so they stay in order. */
  function requestsOf(history: History, soldierId: string, graderId: string, code: string): (() => Promise<unknown>)[] {
    const { office } = test
    const record = (path: string, body: object) => () => office.post(`/api/soldiers/${soldierId}/${path}`, body)
    return [
      ...history.sheets.map((sheet) => () => {
        const { id, outcome, finishedAt, ...rest } = sheet
        const how = outcome === 'VOID' ? { void: { kind: 'weather' } } : { outcomeOnly: outcome }
        const people = { candidateId: soldierId, graderId }
        const body = { ...rest, ...how, ...people, standardVersion: 1, startedAt: finishedAt, finishedAt }
        return office.put<StoredSheet>(`/api/sheets/${id}`, body)
      }),
      async () => {
        for (const award of history.awards)
          await record('awards', { ...award, certification: code, evidence: 'Paper' })()
      },
      ...history.withdrawals.map((on) => record('withdrawals', { certification: code, on, reason: 'Moved' })),
      ...history.reviews.map((review) => record('reviews', review)),
      ...history.suspensions.map(({ from, lift }) => async () => {
        const { id } = await office.post('/api/suspensions', {
          soldierId,
          certification: code,
          from,
          reason: 'Inquiry',
        })
        if (lift) await office.post(`/api/suspensions/${id}/lift`, { on: lift, reason: 'Closed' }, 200)
      }),
    ]
  }

  it.each(cases.map(withOwnStandards))('$name', async (history) => {
    const { office } = test
    for (const standard of history.certification.standards)
      await makeStandard(office, { code: standard, ...ONE_MEASURE })
    const unitId = await makeUnit(office, { timeZone: history.timeZone })
    const soldierId = await makeSoldier(office, unitId, { arms: ['sword', 'saber', 'rifle'] })
    const graderId = await makeSoldier(office, unitId)
    const code = `${history.certification.code}-${history.name}`
    const certification = { ...history.certification, code, title: code, effectiveFrom: '2020-01-01' }
    await office.post('/api/certifications', certification)
    for (const request of shuffled(requestsOf(history, soldierId, graderId, code), random)) await request()

    for (const { day, status, retests } of history.asOf) {
      const statuses = await readStatuses(office, soldierId, day)
      expect(
        statuses.find((one) => one.certification === code),
        day,
      ).toEqual({ certification: code, ...status })
      const open = await office.get<{ items: Retest[] }>(`/api/retests?asOf=${day}&unitId=${unitId}`)
      const own = open.items.filter((one) => one.certification === code)
      expect(own, day).toHaveLength(retests.length)
      expect(own, day).toEqual(
        expect.arrayContaining(retests.map((one) => expect.objectContaining({ ...one, soldierId }))),
      )
      checked += 1
      if (checked % 3 > 0) continue
      const ready = await office.get<Readiness>(`/api/readiness?asOf=${day}&unitId=${unitId}&certification=${code}`)
      expect(
        ready.items.find((one) => one.soldierId === soldierId),
        day,
      ).toMatchObject(status)
      checkedInReadiness += 1
    }
    for (const [id, number] of Object.entries(history.attempts)) {
      const sheet = await office.get<SheetDetail>(`/api/sheets/${id}`)
      expect(sheet.result.attempts.find((one) => one.certification === code)).toEqual({ certification: code, number })
    }
  })

  it('are asked about on as many days as there should be', () => {
    expect([cases.length, checked, checkedInReadiness]).toEqual([60, 409, 136])
  })
})
