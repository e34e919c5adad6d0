import { describe, expect, it } from 'vitest'
import { judgeSheet, type SheetFacts, type Surroundings } from '../../../../server/domain/validity/judge-sheet.ts'
import { VALIDITY_RULES } from '../../../../server/domain/validity/rules.ts'

const MINUTE = 60_000
const FINISHED = Date.parse('2026-03-02T15:00:00Z')

const VALID: SheetFacts = {
  purpose: 'test',
  outcomeOnly: false,
  isVoid: false,
  isSecond: false,
  candidateId: 'candidate',
  sponsorId: 'sponsor',
  graderId: 'grader',
  arm: 'sword',
  day: '2026-03-02',
  finishedAt: FINISHED,
  conditionsMet: true,
  voidAfterFailure: false,
  storedAt: FINISHED + 10 * MINUTE,
  clockSkewMs: 0,
}

const AROUND: Surroundings = {
  version: { published: true, from: '2026-01-01', nextFrom: null },
  standardArms: ['saber', 'sword'],
  candidateArms: ['rifle', 'sword'],
  sponsorships: [{ sponsorId: 'sponsor', from: '2026-02-01', to: null }],
  lastAwardOn: null,
  graderQualified: true,
  sponsorCertified: true,
  certifications: [{ code: 'sword', retest: null, missingBefore: [] }],
}

const broken = (sheet: Partial<SheetFacts>, around: Partial<Surroundings> = {}) =>
  judgeSheet({ ...VALID, ...sheet }, { ...AROUND, ...around }).map(({ rule }) => rule)

const sponsorship = (sponsorId: string, from: string, to: string | null) => ({
  sponsorships: [...AROUND.sponsorships, { sponsorId, from, to }],
})

const certification = (more: Partial<Surroundings['certifications'][number]>) => ({
  certifications: [...AROUND.certifications, { code: 'other', retest: null, missingBefore: [], ...more }],
})

describe('a sheet that breaks nothing', () => {
  it('has no violation', () => {
    expect(judgeSheet(VALID, AROUND)).toEqual([])
  })
})

describe('different people', () => {
  it('grade, sponsor and are tested', () => {
    expect(broken({ graderId: 'candidate' })).toEqual(['grader-is-candidate'])
    expect(broken({ sponsorId: 'candidate' }, sponsorship('candidate', '2026-02-01', null))).toEqual([
      'sponsor-is-candidate',
    ])
  })
})

describe('grader-coached', () => {
  it('holds the sponsor on the sheet, of record or not', () => {
    expect(broken({ graderId: 'sponsor' })).toEqual(['grader-coached'])
    expect(broken({ graderId: 'sponsor' }, { sponsorships: [] })).toEqual(['grader-coached', 'not-the-sponsor'])
  })

  // From, to, last award before the sheet of 2 March 2026; a sponsorship that ended on or before the award's day is over.
  it.each([
    ['2024-01-01', '2024-02-01', null, true],
    ['2026-03-02', null, null, true],
    ['2026-03-03', null, null, false],
    ['2025-01-01', '2025-06-01', '2025-06-01', false],
    ['2025-01-01', '2025-05-31', '2025-06-01', false],
    ['2025-01-01', '2025-06-02', '2025-06-01', true],
    ['2025-01-01', null, '2025-06-01', true],
    ['2025-07-01', '2025-07-02', '2025-06-01', true],
  ])('with a sponsorship from %s to %s and an award on %s: %s', (from, to, lastAwardOn, coached) => {
    expect(broken({}, { ...sponsorship('grader', from, to), lastAwardOn })).toEqual(coached ? ['grader-coached'] : [])
  })

  it('leaves a grader who coached somebody else, and a candidate without a sponsor', () => {
    expect(broken({}, sponsorship('third', '2025-01-01', null))).toEqual([])
    expect(broken({ sponsorId: null })).toEqual(['no-sponsor'])
  })
})

describe('the grader', () => {
  it('is certified or appointed', () => {
    expect(broken({}, { graderQualified: false })).toEqual(['grader-not-qualified'])
  })
})

describe('the sponsor', () => {
  it.each([
    ['2026-03-02', '2026-03-02', []],
    ['2026-03-02', null, []],
    ['2026-01-01', '2026-03-02', []],
    ['2026-01-01', '2026-03-01', ['not-the-sponsor']],
    ['2026-03-03', null, ['not-the-sponsor']],
  ])('of record from %s to %s on 2 March: %j', (from, to, rules) => {
    expect(broken({}, { sponsorships: [{ sponsorId: 'sponsor', from, to }] })).toEqual(rules)
  })

  it('is the one of record and not another', () => {
    const sponsorships = [{ sponsorId: 'third', from: '2026-01-01', to: null }]
    expect(broken({}, { sponsorships })).toEqual(['not-the-sponsor'])
  })

  it('is certified', () => {
    expect(broken({}, { sponsorCertified: false })).toEqual(['sponsor-not-certified'])
  })

  it('is missing once, when there is none', () => {
    expect(broken({ sponsorId: null }, { sponsorCertified: false, sponsorships: [] })).toEqual(['no-sponsor'])
  })
})

describe('conditions', () => {
  it('are met', () => {
    expect(broken({ conditionsMet: false })).toEqual(['conditions'])
  })
})

describe('a retest', () => {
  it.each([
    ['2026-03-03', ['too-early']],
    ['2026-03-02', []],
    ['2026-03-01', []],
  ])('allowed from %s on: %j', (earliest, rules) => {
    expect(broken({}, certification({ retest: { earliest, needsReview: false } }))).toEqual(rules)
  })

  it('waits for its review', () => {
    const retest = { earliest: '2026-03-01', needsReview: true }
    expect(broken({}, certification({ retest }))).toEqual(['review-missing'])
  })

  it('is told of once, however many certifications it is too early for', () => {
    const retest = { earliest: '2026-03-09', needsReview: true }
    const certifications = ['sword', 'other'].map((code) => ({ code, retest, missingBefore: [] }))
    expect(broken({}, { certifications })).toEqual(['too-early', 'review-missing'])
  })
})

describe('the sequence', () => {
  it('has the standards before it kept', () => {
    expect(broken({}, certification({ missingBefore: ['standing'] }))).toEqual(['out-of-sequence'])
  })
})

describe('the version of the standard', () => {
  it.each([
    [{ published: true, from: '2026-03-02', nextFrom: null }, []],
    [{ published: true, from: '2026-03-03', nextFrom: null }, ['standard-not-in-force']],
    [{ published: true, from: '2026-01-01', nextFrom: '2026-03-03' }, []],
    [{ published: true, from: '2026-01-01', nextFrom: '2026-03-02' }, ['standard-not-in-force']],
    [{ published: true, from: '2026-01-01', nextFrom: '2026-03-01' }, ['standard-not-in-force']],
    [{ published: false, from: '2026-01-01', nextFrom: null }, ['standard-not-in-force']],
  ])('%j on 2 March: %j', (version, rules) => {
    expect(broken({}, { version })).toEqual(rules)
  })
})

describe('the arm', () => {
  it.each([
    ['sword', ['saber', 'sword'], ['sword'], []],
    ['sword', [], ['sword'], []],
    ['sword', ['saber'], ['sword'], ['arm-not-allowed']],
    ['saber', ['saber', 'sword'], ['sword'], ['arm-not-allowed']],
    ['rifle', [], ['sword'], ['arm-not-allowed']],
    ['sword', [], [], ['arm-not-allowed']],
    [null, ['saber', 'sword'], ['sword'], ['arm-not-allowed']],
    [null, [], [], []],
  ])('%s, of the standard %j, carried %j: %j', (arm, standardArms, candidateArms, rules) => {
    expect(broken({ arm }, { standardArms, candidateArms })).toEqual(rules)
  })
})

describe('a void', () => {
  it('comes before the failure', () => {
    expect(broken({ isVoid: true, voidAfterFailure: true })).toEqual(['void-after-failure'])
    expect(broken({ isVoid: true, voidAfterFailure: false })).toEqual([])
  })
})

describe('the clocks', () => {
  it.each([
    [5 * MINUTE, []],
    [-5 * MINUTE, []],
    [5 * MINUTE + 1, ['clock-skew']],
    [-5 * MINUTE - 1, ['clock-skew']],
    [null, []],
  ])('differ by %s ms: %j', (clockSkewMs, rules) => {
    expect(broken({ clockSkewMs })).toEqual(rules)
  })

  it.each([
    [5 * MINUTE, []],
    [5 * MINUTE + 1, ['clock-skew']],
  ])('have the test finish %i ms after it was stored: %j', (ahead, rules) => {
    expect(broken({ storedAt: FINISHED - ahead })).toEqual(rules)
    expect(broken({ storedAt: FINISHED - ahead, clockSkewMs: null })).toEqual(rules)
  })
})

describe('a sheet that breaks all it can', () => {
  const worst: SheetFacts = {
    ...VALID,
    sponsorId: 'candidate',
    graderId: 'candidate',
    arm: 'halberd',
    conditionsMet: false,
    voidAfterFailure: true,
    clockSkewMs: 3_600_000,
  }
  const around: Surroundings = {
    version: { published: false, from: '2026-01-01', nextFrom: null },
    standardArms: ['sword'],
    candidateArms: [],
    sponsorships: [],
    lastAwardOn: null,
    graderQualified: false,
    sponsorCertified: false,
    certifications: [
      { code: 'sword', retest: { earliest: '2026-04-01', needsReview: true }, missingBefore: ['standing'] },
    ],
  }
  const rulesOf = (sheet: Partial<SheetFacts>) => judgeSheet({ ...worst, ...sheet }, around).map(({ rule }) => rule)

  it('is told each rule once, in the order of the table', () => {
    const all = [
      'grader-is-candidate',
      'sponsor-is-candidate',
      'grader-coached',
      'grader-not-qualified',
      'not-the-sponsor',
      'sponsor-not-certified',
      'conditions',
      'too-early',
      'review-missing',
      'out-of-sequence',
      'standard-not-in-force',
      'arm-not-allowed',
      'clock-skew',
    ]
    expect(rulesOf({})).toEqual(all)
    expect(rulesOf({ sponsorId: null })).toEqual([
      'grader-is-candidate',
      'grader-not-qualified',
      'no-sponsor',
      ...all.slice(6),
    ])
  })

  it.each([
    ['practice', { purpose: 'practice' }, []],
    ['outcome-only', { outcomeOnly: true }, ['grader-is-candidate', 'sponsor-is-candidate']],
    ['a second grader', { isSecond: true }, ['grader-is-candidate', 'grader-coached', 'grader-not-qualified']],
    [
      'void',
      { isVoid: true },
      ['grader-is-candidate', 'sponsor-is-candidate', 'grader-coached', 'void-after-failure', 'clock-skew'],
    ],
  ] as const)('and is %s answers for its rows alone', (_kind, kind, rules) => {
    expect(rulesOf(kind)).toEqual(rules)
  })

  it('says of each rule whether it can be waived, and how it is broken', () => {
    for (const { rule, waivable, detail } of judgeSheet(worst, around)) {
      expect(waivable).toBe(VALIDITY_RULES[rule])
      expect(detail).toMatch(/^[A-Z].+\.$/)
    }
  })
})
