import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { findMalformed } from '../../../../server/domain/scoring/find-malformed.ts'
import { scoreSheet } from '../../../../server/domain/scoring/score-sheet.ts'
import type { MalformedRule, Mark, Marks, ScoredStandard } from '../../../../server/domain/scoring/types.ts'

const read = (name: string) => JSON.parse(readFileSync(new URL(`../../../cases/${name}`, import.meta.url), 'utf8'))

const standing = read('standard-standing.json') as ScoredStandard

/** What the cases call each kind of malformed sheet, and the rule of ours that names it. */
const RULE_OF_CASE: Record<string, MalformedRule> = {
  'repeated measure': 'repeated-measure',
  'unknown measure': 'unknown-measure',
  'too many trials': 'too-many-trials',
  'blank between marks': 'blank-between-marks',
  'fault on a blank trial': 'fault-on-blank',
  'unknown fault': 'unknown-fault',
  'gauge not of this measure': 'gauge-not-of-measure',
  'two readings of one gauge': 'repeated-reading',
  value: 'reading-value',
  'override inside the band': 'override-inside-band',
  'blank override': 'override-blank',
  'mark after the end': 'mark-after-end',
  'unknown mark': 'unknown-mark',
  'repeated fault': 'repeated-fault',
  'reading on a blank trial': 'reading-on-blank',
  'unknown major': 'unknown-major',
  'repeated major': 'repeated-major',
  atCall: 'at-call',
}

interface TestDayCase {
  name: string
  sheet: Marks
  expected: { malformed?: string }
}

describe('sheets of a test day, expected results by an independent implementation', () => {
  const { cases } = read('test-day.json') as { cases: TestDayCase[] }

  it.each(cases.map((one) => [one.name, one] as const))('%s', (_name, { sheet, expected }) => {
    const malformed = findMalformed(standing, sheet)
    if (expected.malformed !== undefined) {
      expect(malformed.map(({ rule }) => rule)).toContain(RULE_OF_CASE[expected.malformed])
    } else {
      expect(malformed).toEqual([])
      expect(scoreSheet(standing, sheet)).toEqual(expected)
    }
  })
})

interface ScoreCase {
  rule: ScoredStandard['rule']
  minors: Mark[][]
  expected: { outcome: string; minimum: number; go: number; noGo: number }
}

describe('other trials, needed and percent, expected results by an independent implementation', () => {
  const { cases } = read('score-cases.json') as { cases: ScoreCase[] }

  it.each(cases.map((one, index) => [index + 1, one] as const))('case %i', (_number, { rule, minors, expected }) => {
    const codes = minors.map((_, index) => `m${index}`)
    const standard = {
      rule,
      majors: [],
      gauges: [],
      calls: [],
      minors: codes.map((code) => ({ code, gauges: [], faults: [] })),
    }
    const marks = { majors: [], minors: minors.map((trials, index) => ({ code: codes[index]!, trials })) }
    expect(findMalformed(standard, marks)).toEqual([])
    expect(scoreSheet(standard, marks)).toMatchObject({ ...expected, ending: 'completed' })
  })
})
