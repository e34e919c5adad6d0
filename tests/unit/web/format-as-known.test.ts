import { describe, expect, it } from 'vitest'
import type { EnteredFact, KnownSheet, KnownStanding } from '../../../server/contract/soldiers/as-known.ts'
import { formatChanged, formatSheetChanged } from '../../../web/domain/soldiers/format-changed.ts'
import { formatEntered, type Sayings } from '../../../web/domain/soldiers/format-entered.ts'

const say: Sayings = {
  certification: (code) => code.toUpperCase(),
  standard: (code) => `the ${code}`,
  day: (day) => day.slice(5),
}

const standing = (more: Partial<KnownStanding> = {}): KnownStanding => ({
  certification: 'rifle',
  status: 'part way',
  awardedOn: null,
  validThrough: null,
  suspended: false,
  toward: [],
  retestOpen: [],
  retests: [],
  ...more,
})
const retest = { standard: 'manual', attempt: 2, on: '2026-03-02', earliest: '2026-03-09', due: '2026-04-01' }
const open = { ...retest, pastDue: false, needsReview: false }

const changed = (before: KnownStanding | null, after: KnownStanding | null) =>
  formatChanged('rifle', before, after, say)

describe('what later entries changed, in sentences', () => {
  it('says how the word changed, also where nothing was known', () => {
    expect(changed(null, standing({ status: 'retest due', retests: [open] }))).toEqual([
      'RIFLE: no test yet became retest due.',
      'RIFLE: retest in the manual open from 03-09, due by 04-01.',
    ])
  })

  it('says what changed under the same word, and nothing else', () => {
    const certified = standing({ status: 'certified', awardedOn: '2026-03-02', validThrough: '2027-03-02' })
    expect(changed(certified, { ...certified, validThrough: '2027-03-05' })).toEqual([
      'RIFLE: valid through 03-05, not 03-02.',
    ])
    expect(changed(certified, certified)).toEqual([])
    const due = standing({ status: 'retest due', retests: [open] })
    expect(changed(due, { ...due, retests: [{ ...open, due: '2026-04-20', needsReview: true }] })).toEqual([
      'RIFLE: retest in the manual from 03-09, due by 04-20, not from 03-09, due by 04-01.',
      'RIFLE: retest in the manual needs a review first.',
    ])
    const kept = { standard: 'march', on: '2026-03-02', countsUntil: '2026-05-31' }
    expect(changed(standing({ toward: [kept] }), standing())).toEqual([
      'The GO in the march of 03-02 is no longer kept.',
    ])
  })

  it('says what became of a sheet that was known, and leaves a new one to its entry', () => {
    const sheet: KnownSheet = {
      ...{ id: 'a', standard: 'manual', version: 1, arm: 'rifle', day: '2026-03-02', outcome: 'NO-GO' },
      ...{ isSecond: false, revision: 1, state: 'held' },
    }
    expect(formatSheetChanged(null, sheet, 'of 03-02')).toEqual([])
    expect(formatSheetChanged(sheet, { ...sheet, outcome: 'GO', state: 'counted' }, 'of 03-02')).toEqual([
      'The sheet of 03-02: NO-GO became GO.',
      'The sheet of 03-02: held became counted.',
    ])
  })
})

describe('what was entered, in a sentence', () => {
  const day = '2026-03-02'
  const cases: [EnteredFact, string][] = [
    [
      { kind: 'sheet', sheetId: 'a', revision: 1, standard: 'manual', day, outcome: 'GO', state: 'held' },
      'The sheet of 03-02, the manual, arrived: GO, held.',
    ],
    [
      { kind: 'sheet', sheetId: 'a', revision: 2, standard: 'manual', day, outcome: 'GO', state: 'counted' },
      'The sheet of 03-02, the manual, was amended: GO, counted.',
    ],
    [{ kind: 'decision', sheetId: 'a', state: 'rejected' }, 'The sheet of a was rejected.'],
    [{ kind: 'suspension', certification: 'rifle', from: day }, 'A suspension of RIFLE from 03-02 was entered.'],
    [
      { kind: 'lift', certification: 'rifle', from: day, on: '2026-03-09' },
      'The suspension of RIFLE from 03-02 was lifted as of 03-09.',
    ],
    [
      { kind: 'due-move', certification: 'rifle', standard: 'manual', on: day, due: '2026-04-20' },
      'The retest after the NO-GO of 03-02, the manual, was given the due day 04-20.',
    ],
  ]
  it.each(cases)('%j', (fact, sentence) => {
    expect(formatEntered(fact, say, (id) => `of ${id}`)).toBe(sentence)
  })
})
