import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { ScoredSheet, SheetDetail, StoredSheet } from '../../../server/contract/sheets/sheets.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import {
  carryOver,
  type Ground,
  makeCertification,
  makeGround,
  makeSoldier,
  makeStandard,
  makeTestSetting,
  putSheet,
  type TestSetting,
} from '../../support/factories.ts'
import { secondPerson } from '../../support/second-person.ts'
import {
  GO_MARKS,
  marks,
  NO_GO_MARKS,
  outcomeOnly,
  type SheetInput,
  STOPPED_MARKS,
  shortStandard,
  times,
} from '../../support/sheet-body.ts'

/** The day of the sheet in question. */
const DAY = '2026-03-02'

let test: TestApp
let ground: Ground
let strict: Ground
beforeAll(async () => {
  test = await buildTestApp()
  ground = await makeGround(test.office)
  strict = await makeGround(test.office, { reviewAfter: 1, sequence: 'in-order' })
})
afterAll(() => test.close())

const settingOn = (on?: string) =>
  makeTestSetting(test.office, on === undefined ? ground : on === 'strict ground' ? strict : undefined)

/** Brings about a situation. Out: the sheet in question. */
type Situation = (setting: TestSetting) => Promise<SheetInput> | SheetInput
type Case = [rules: string, what: string, arrange: Situation, on?: 'ground of its own' | 'strict ground']

const sponsored = async ({ candidateId }: TestSetting, sponsorId: string, from: string, to: string | null = null) =>
  test.office.post(`/api/soldiers/${candidateId}/sponsorships`, { sponsorId, from, to })
const appointed = async ({ standard }: TestSetting, soldierId: string, from: string, to: string | null = null) =>
  test.office.post(`/api/soldiers/${soldierId}/appointments`, { standard, from, to })
const suspended = async ({ certification }: TestSetting, soldierId: string, from: string, lift?: string) => {
  const { id } = await test.office.post('/api/suspensions', { soldierId, certification, from, reason: 'Inquiry' })
  if (lift) await test.office.post(`/api/suspensions/${id}/lift`, { on: lift, reason: 'Closed' }, 200)
}
const reviewed = async ({ candidateId, standard }: TestSetting, on: string) =>
  test.office.post(`/api/soldiers/${candidateId}/reviews`, { standard, on })
const newSoldier = ({ unitId }: TestSetting) => makeSoldier(test.office, unitId)
const failedOn = (setting: TestSetting, day: string) =>
  putSheet(test.office, setting.sheet({ ...times(day), ...NO_GO_MARKS }))
const grader = async (setting: TestSetting, award: { awardedOn?: string; validThrough?: string } | null) => {
  const graderId = await newSoldier(setting)
  if (award) await carryOver(test.office, graderId, setting.certification, award)
  return graderId
}
const version = async (setting: TestSetting, more: object, isPublished = true) => {
  const body = shortStandard({ code: setting.standard, version: 2, effectiveFrom: '2026-02-01', ...more })
  const { id } = await test.office.post('/api/standards', body)
  if (isPublished) await test.office.post(`/api/standards/${id}/publish`, undefined, 200)
}

const VALID: Case[] = [
  ['', 'as it should be', (setting) => setting.sheet()],
  [
    '',
    'a grader appointed for that very day',
    async (setting) => {
      const graderId = await grader(setting, null)
      await appointed(setting, graderId, DAY, DAY)
      return setting.sheet({ graderId })
    },
  ],
  [
    '',
    'a grader whose award ends that day',
    async (setting) => setting.sheet({ graderId: await grader(setting, { validThrough: DAY }) }),
  ],
  [
    '',
    'a grader awarded the day before',
    async (setting) => setting.sheet({ graderId: await grader(setting, { awardedOn: '2026-03-01' }) }),
  ],
  [
    '',
    'a grader whose suspension was lifted that day',
    async (setting) => {
      await suspended(setting, setting.graderId, '2026-02-01', DAY)
      return setting.sheet()
    },
    'ground of its own',
  ],
  [
    '',
    'a grader certified in another certification of the standard',
    async (setting) => {
      const graderId = await newSoldier(setting)
      const other = await makeCertification(test.office, {
        standards: [setting.standard, await makeStandard(test.office)],
      })
      await carryOver(test.office, graderId, other)
      return setting.sheet({ graderId })
    },
    'ground of its own',
  ],
  [
    '',
    'a grader who coached before the last award',
    async (setting) => {
      await sponsored(setting, setting.graderId, '2025-01-01', '2025-06-01')
      await carryOver(test.office, setting.candidateId, setting.certification, {
        awardedOn: '2025-06-01',
        validThrough: '2025-12-01',
      })
      return setting.sheet()
    },
  ],
  [
    '',
    'a grader who will coach from tomorrow on',
    async (setting) => {
      await sponsored(setting, setting.graderId, '2026-03-03')
      return setting.sheet()
    },
  ],
  [
    '',
    'a sponsor for that very day',
    async (setting) => {
      const sponsorId = await grader(setting, {})
      await sponsored(setting, sponsorId, DAY, DAY)
      return setting.sheet({ sponsorId })
    },
  ],
  [
    '',
    'a retest on the earliest day',
    async (setting) => {
      await failedOn(setting, '2026-02-23')
      return setting.sheet()
    },
  ],
  [
    '',
    'a review on the day of the retest',
    async (setting) => {
      await failedOn(setting, '2026-02-01')
      await reviewed(setting, DAY)
      return setting.sheet()
    },
    'strict ground',
  ],
  [
    '',
    'a review on the day of the NO-GO',
    async (setting) => {
      await failedOn(setting, '2026-02-01')
      await reviewed(setting, '2026-02-01')
      return setting.sheet()
    },
    'strict ground',
  ],
  ['', 'the first of two standards in order', (setting) => setting.sheet(), 'strict ground'],
  [
    '',
    'the first day of a version',
    async (setting) => {
      await version(setting, { effectiveFrom: DAY })
      return setting.sheet({ standardVersion: 2 })
    },
    'ground of its own',
  ],
  [
    '',
    'the last day of a version',
    async (setting) => {
      await version(setting, { effectiveFrom: '2026-03-03' })
      return setting.sheet()
    },
    'ground of its own',
  ],
  [
    '',
    'a later version that is a draft',
    async (setting) => {
      await version(setting, {}, false)
      return setting.sheet()
    },
    'ground of its own',
  ],
  ['', 'no arm where none is needed', (setting) => setting.sheet({ arm: null })],
  [
    '',
    'an arm given up the day after',
    async (setting) => {
      await test.office.post(`/api/soldiers/${setting.candidateId}/changes`, { from: '2026-03-03', arms: [] }, 200)
      return setting.sheet()
    },
  ],
  ['', 'a void while all was within reach', (setting) => setting.sheet({ void: { kind: 'weather' } })],
  [
    '',
    'a void without conditions or sponsor',
    (setting) =>
      setting.sheet({
        void: { kind: 'injury', text: 'Heat' },
        sponsorId: null,
        conditions: { uniform: false, equipment: false, sponsorPresent: false },
      }),
  ],
  [
    '',
    'practice graded by the candidate',
    (setting) => setting.sheet({ purpose: 'practice', graderId: setting.candidateId, sponsorId: null, arm: 'halberd' }),
  ],
  [
    '',
    'practice graded by the sponsor',
    (setting) => setting.sheet({ purpose: 'practice', graderId: setting.sponsorId }),
  ],
  [
    '',
    'an outcome only, graded by whomever',
    async (setting) =>
      setting.sheet({ ...outcomeOnly('GO'), graderId: await newSoldier(setting), sponsorId: null, arm: 'halberd' }),
  ],
  [
    '',
    'an outcome only, graded by the sponsor',
    (setting) => setting.sheet({ ...outcomeOnly('GO'), graderId: setting.sponsorId }),
  ],
  [
    '',
    'the sheet of a second grader, without sponsor or arm',
    (setting) => setting.sheet({ secondOf: '8f6a2f0e-1c1f-4f66-9d43-1f8b8f0a3c11', sponsorId: null, arm: null }),
  ],
  ['', 'finished five minutes from now', (setting) => setting.sheet(until('2026-06-15T12:05:00Z'))],
]

const until = (finishedAt: string) => ({ startedAt: finishedAt, finishedAt })

const BROKEN: Case[] = [
  [
    'grader-is-candidate',
    'graded by the candidate',
    async (setting) => {
      await appointed(setting, setting.candidateId, DAY)
      return setting.sheet({ graderId: setting.candidateId })
    },
  ],
  [
    'grader-is-candidate',
    'an outcome only, graded by the candidate',
    (setting) => setting.sheet({ ...outcomeOnly('GO'), graderId: setting.candidateId }),
  ],
  [
    'grader-is-candidate',
    'a void, graded by the candidate',
    (setting) => setting.sheet({ void: { kind: 'weather' }, graderId: setting.candidateId }),
  ],
  [
    'grader-is-candidate grader-not-qualified',
    'a second sheet, graded by the candidate',
    (setting) => setting.sheet({ secondOf: '8f6a2f0e-1c1f-4f66-9d43-1f8b8f0a3c12', graderId: setting.candidateId }),
  ],
  [
    'sponsor-is-candidate not-the-sponsor sponsor-not-certified',
    'sponsored by the candidate',
    (setting) => setting.sheet({ sponsorId: setting.candidateId }),
  ],
  [
    'sponsor-is-candidate',
    'an outcome only, sponsored by the candidate',
    (setting) => setting.sheet({ ...outcomeOnly('GO'), sponsorId: setting.candidateId }),
  ],
  ['grader-coached', 'graded by the sponsor', (setting) => setting.sheet({ graderId: setting.sponsorId })],
  [
    'grader-coached',
    'graded by somebody who coached once',
    async (setting) => {
      await sponsored(setting, setting.graderId, '2021-01-01', '2021-01-01')
      return setting.sheet()
    },
  ],
  [
    'grader-coached',
    'graded by somebody who coached from that day on',
    async (setting) => {
      await sponsored(setting, setting.graderId, DAY)
      return setting.sheet()
    },
  ],
  [
    'grader-coached',
    'graded by somebody who coached until the day after the last award',
    async (setting) => {
      await sponsored(setting, setting.graderId, '2025-01-01', '2025-06-02')
      await carryOver(test.office, setting.candidateId, setting.certification, {
        awardedOn: '2025-06-01',
        validThrough: '2025-12-01',
      })
      return setting.sheet()
    },
  ],
  [
    'grader-coached',
    'a second sheet, graded by the sponsor',
    (setting) => setting.sheet({ secondOf: '8f6a2f0e-1c1f-4f66-9d43-1f8b8f0a3c13', graderId: setting.sponsorId }),
  ],
  [
    'grader-coached',
    'a void, graded by the sponsor',
    (setting) => setting.sheet({ void: { kind: 'weather' }, graderId: setting.sponsorId }),
  ],
  [
    'grader-not-qualified',
    'graded by somebody',
    async (setting) => setting.sheet({ graderId: await newSoldier(setting) }),
  ],
  [
    'grader-not-qualified',
    'graded by somebody appointed until the day before',
    async (setting) => {
      const graderId = await newSoldier(setting)
      await appointed(setting, graderId, '2026-01-01', '2026-03-01')
      return setting.sheet({ graderId })
    },
  ],
  [
    'grader-not-qualified',
    'graded by somebody appointed for another standard',
    async (setting) => {
      const graderId = await newSoldier(setting)
      await appointed({ ...setting, standard: await makeStandard(test.office) }, graderId, '2026-01-01')
      return setting.sheet({ graderId })
    },
  ],
  [
    'grader-not-qualified',
    'graded by somebody whose award ended the day before',
    async (setting) => setting.sheet({ graderId: await grader(setting, { validThrough: '2026-03-01' }) }),
  ],
  [
    'grader-not-qualified',
    'graded by somebody awarded at the end of that day',
    async (setting) => setting.sheet({ graderId: await grader(setting, { awardedOn: DAY }) }),
  ],
  [
    'grader-not-qualified',
    'graded by somebody suspended from that day on',
    async (setting) => {
      await suspended(setting, setting.graderId, DAY)
      return setting.sheet()
    },
    'ground of its own',
  ],
  [
    'grader-not-qualified',
    'graded by somebody whose later award is over',
    async (setting) => {
      await carryOver(test.office, setting.graderId, setting.certification, {
        awardedOn: '2026-01-01',
        validThrough: '2026-02-01',
      })
      return setting.sheet()
    },
    'ground of its own',
  ],
  ['no-sponsor', 'without sponsor', (setting) => setting.sheet({ sponsorId: null })],
  [
    'not-the-sponsor',
    'with a sponsor who is none',
    async (setting) => setting.sheet({ sponsorId: await grader(setting, {}) }),
  ],
  [
    'not-the-sponsor',
    'with a sponsor until the day before',
    async (setting) => {
      const sponsorId = await grader(setting, {})
      await sponsored(setting, sponsorId, '2026-01-01', '2026-03-01')
      return setting.sheet({ sponsorId })
    },
  ],
  [
    'not-the-sponsor',
    'with a sponsor from the day after',
    async (setting) => {
      const sponsorId = await grader(setting, {})
      await sponsored(setting, sponsorId, '2026-03-03')
      return setting.sheet({ sponsorId })
    },
  ],
  [
    'sponsor-not-certified',
    'with a sponsor who is suspended',
    async (setting) => {
      await suspended(setting, setting.sponsorId, '2026-01-01')
      return setting.sheet()
    },
    'ground of its own',
  ],
  [
    'sponsor-not-certified',
    'with a sponsor appointed to grade but not certified',
    async (setting) => {
      const sponsorId = await newSoldier(setting)
      await sponsored(setting, sponsorId, '2026-01-01')
      await appointed(setting, sponsorId, '2026-01-01')
      return setting.sheet({ sponsorId })
    },
  ],
  ...(['uniform', 'equipment', 'sponsorPresent'] as const).map(
    (one): Case => [
      'conditions',
      `where ${one} was not as it must be`,
      (setting) =>
        setting.sheet({ conditions: { uniform: true, equipment: true, sponsorPresent: true, [one]: false } }),
    ],
  ),
  [
    'too-early',
    'a retest a day before the earliest',
    async (setting) => {
      await failedOn(setting, '2026-02-24')
      return setting.sheet()
    },
  ],
  [
    'too-early',
    'a retest an hour after the NO-GO',
    async (setting) => {
      await failedOn(setting, DAY)
      return setting.sheet(times(DAY, 11))
    },
  ],
  [
    'review-missing',
    'a retest after too many NO-GOs, reviewed before the last of them',
    async (setting) => {
      await failedOn(setting, '2026-02-01')
      await reviewed(setting, '2026-01-31')
      return setting.sheet()
    },
    'strict ground',
  ],
  [
    'review-missing',
    'a retest after too many NO-GOs, reviewed the day after',
    async (setting) => {
      await failedOn(setting, '2026-02-01')
      await reviewed(setting, '2026-03-03')
      return setting.sheet()
    },
    'strict ground',
  ],
  [
    'standard-not-in-force',
    'by a version that is a draft',
    async (setting) => {
      await version(setting, {}, false)
      return setting.sheet({ standardVersion: 2 })
    },
    'ground of its own',
  ],
  [
    'standard-not-in-force',
    'by a version of tomorrow',
    async (setting) => {
      await version(setting, { effectiveFrom: '2026-03-03' })
      return setting.sheet({ standardVersion: 2 })
    },
    'ground of its own',
  ],
  [
    'standard-not-in-force',
    'by a version of yesterday',
    async (setting) => {
      await version(setting, { effectiveFrom: DAY })
      return setting.sheet()
    },
    'ground of its own',
  ],
  ['arm-not-allowed', 'with an arm the candidate does not carry', (setting) => setting.sheet({ arm: 'saber' })],
  [
    'arm-not-allowed',
    'with an arm the candidate gave up that day',
    async (setting) => {
      await test.office.post(`/api/soldiers/${setting.candidateId}/changes`, { from: DAY, arms: ['rifle'] }, 200)
      return setting.sheet()
    },
  ],
  [
    'arm-not-allowed',
    'with an arm the standard does not name',
    async (setting) => {
      await version(setting, { arms: ['saber', 'sword'] })
      return setting.sheet({ standardVersion: 2, arm: 'rifle' })
    },
    'ground of its own',
  ],
  [
    'arm-not-allowed',
    'with no arm though the standard names some',
    async (setting) => {
      await version(setting, { arms: ['saber', 'sword'] })
      return setting.sheet({ standardVersion: 2, arm: null })
    },
    'ground of its own',
  ],
  [
    'void-after-failure',
    'void after a major NO-GO',
    (setting) => setting.sheet({ ...STOPPED_MARKS, void: { kind: 'injury' } }),
  ],
  [
    'void-after-failure',
    'void once out of reach',
    (setting) => setting.sheet({ ...marks('draw', 'halt'), void: { kind: 'equipment' } }),
  ],
  [
    'clock-skew',
    'finished more than five minutes from now',
    (setting) => setting.sheet(until('2026-06-15T12:05:00.001Z')),
  ],
  [
    'clock-skew',
    'void and finished more than five minutes from now',
    (setting) => setting.sheet({ ...until('2026-06-15T13:00:00Z'), void: { kind: 'weather' } }),
  ],
]

const NEVER = ['grader-is-candidate', 'sponsor-is-candidate', 'grader-coached']

describe.each(VALID)('a test that breaks nothing%s: %s', (_rules, _what, arrange, on) => {
  it('counts', async () => {
    const sheet = await arrange(await settingOn(on))
    expect((await test.office.post<ScoredSheet>('/api/sheets/score', sheet, 200)).violations).toEqual([])
    expect(await putSheet(test.office, sheet)).toMatchObject({ state: 'counted', violations: [] })
  })
})

describe.each(BROKEN)('%s: %s', (text, _what, arrange, on) => {
  const rules = text.split(' ')
  const violations = rules.map((rule) => ({
    rule,
    waivable: !NEVER.includes(rule),
    detail: expect.stringMatching(/^[A-Z].+\.$/),
  }))

  it('is held, and counted or not as the rule has it', async () => {
    const sheet = await arrange(await settingOn(on))
    expect((await test.office.post<ScoredSheet>('/api/sheets/score', sheet, 200)).violations).toEqual(violations)
    const stored = await putSheet(test.office, sheet)
    expect(stored).toMatchObject({ state: 'held', violations })

    const path = `/api/sheets/${stored.id}`
    const count = { decision: 'count', reason: 'The first sergeant was there.' }
    if (rules.some((rule) => NEVER.includes(rule))) {
      const problem = await test.office.refused(422, 'POST', `${path}/decision`, count)
      expect(problem.type).toBe(`urn:reviewstand:problem:${rules[0]}`)
      expect(await test.office.get(path)).toMatchObject({ state: 'held', decisions: [] })
      const rejected = await (await secondPerson(test)).post<StoredSheet>(
        `${path}/decision`,
        { ...count, decision: 'reject' },
        200,
      )
      expect(rejected).toMatchObject({ id: stored.id, state: 'rejected', violations })
    } else {
      const counted = await (await secondPerson(test)).post<StoredSheet>(`${path}/decision`, count, 200)
      expect(counted).toMatchObject({ id: stored.id, state: 'counted', violations })
      expect(await test.office.get<SheetDetail>(path)).toMatchObject({
        state: 'counted',
        flags: [],
        waived: rules,
        decisions: [{ decision: 'count', reason: count.reason, by: 'second person', waived: rules }],
      })
    }
    const decided = await test.office.refused(409, 'POST', `${path}/decision`, count)
    expect(decided.type).toBe('urn:reviewstand:problem:not-held')
  })
})

describe('standards in order', () => {
  it('are held where one before is not kept that day', async () => {
    const { office } = test
    const setting = await makeTestSetting(office)
    const first = await makeStandard(office)
    const certification = await makeCertification(office, {
      standards: [first, setting.standard],
      sequence: 'in-order',
      windowDays: 30,
    })
    for (const id of [setting.graderId, setting.sponsorId]) await carryOver(office, id, certification)
    const rulesOn = async (day: string) => {
      const scored = await office.post<ScoredSheet>('/api/sheets/score', setting.sheet(times(day)), 200)
      return scored.violations.map(({ rule }) => rule)
    }
    expect(await rulesOn('2026-03-02')).toEqual(['out-of-sequence'])
    const kept = await putSheet(office, setting.sheet({ standard: first, ...times('2026-03-02', 9), ...GO_MARKS }))
    expect(kept).toMatchObject({ state: 'counted' })
    expect(await rulesOn('2026-03-02')).toEqual([])
    expect(await rulesOn('2026-04-01')).toEqual([])
    expect(await rulesOn('2026-04-02')).toEqual(['out-of-sequence'])
    await putSheet(office, setting.sheet({ standard: first, ...times('2026-03-20'), ...NO_GO_MARKS }))
    expect(await rulesOn('2026-03-21')).toEqual(['out-of-sequence'])
  })
})

describe('several violations', () => {
  it('come one a rule, in the order of the table, and are waived together', async () => {
    const setting = await makeTestSetting(test.office)
    await failedOn(setting, '2026-03-01')
    const sheet = setting.sheet({
      graderId: await newSoldier(setting),
      sponsorId: null,
      conditions: { uniform: false, equipment: false, sponsorPresent: false },
      arm: 'halberd',
    })
    const stored = await putSheet(test.office, sheet)
    const rules = ['grader-not-qualified', 'no-sponsor', 'conditions', 'too-early', 'arm-not-allowed']
    expect(stored.violations.map(({ rule }) => rule)).toEqual(rules)
    const decision = { decision: 'count', reason: 'All were there.' }
    await (await secondPerson(test)).post(`/api/sheets/${stored.id}/decision`, decision, 200)
    expect(await test.office.get(`/api/sheets/${stored.id}`)).toMatchObject({
      state: 'counted',
      waived: rules,
      flags: [],
    })
  })
})
