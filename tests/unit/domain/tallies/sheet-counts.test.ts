import { describe, expect, test } from 'vitest'
import { scoreSheet } from '../../../../server/domain/scoring/score-sheet.ts'
import type { MarkedMajor, MarkedMinor } from '../../../../server/domain/scoring/types.ts'
import { markPattern } from '../../../../server/domain/tallies/mark-pattern.ts'
import { readPattern } from '../../../../server/domain/tallies/read-pattern.ts'
import { sheetCounts } from '../../../../server/domain/tallies/sheet-counts.ts'
import { readingCounters, tallyLayout } from '../../../../server/domain/tallies/tally-layout.ts'
import { DEFINITION, marks } from './given.ts'

const layout = tallyLayout(DEFINITION)
const counts = (sheet: { majors: MarkedMajor[]; minors: MarkedMinor[]; outcomeOnly?: 'GO' }) =>
  sheetCounts(layout, scoreSheet(DEFINITION, sheet), sheet)
/** Tested, NO-GO, trials, incorrect of each measure, by code. */
const byMeasure = ({ measures }: ReturnType<typeof counts>) =>
  Object.fromEntries(layout.measures.map(({ code }, i) => [code, measures.slice(4 * i, 4 * i + 4)]))
const byFault = ({ faults }: ReturnType<typeof counts>) =>
  layout.faults.flatMap(({ measure, fault }, i) => (faults[i] ? [`${measure} ${fault} ${faults[i]}`] : []))

describe('the counts of a sheet', () => {
  test('one carried through: majors are one trial each, minors count their trials', () => {
    expect(byMeasure(counts(marks('turn')))).toEqual({
      uniform: [1, 0, 1, 0],
      composure: [1, 0, 1, 0],
      draw: [1, 0, 3, 0],
      turn: [1, 1, 3, 2],
      halt: [1, 0, 3, 0],
    })
  })

  test('one stopped: trials of what stayed undecided count, but nothing is tested that was not decided', () => {
    const sheet = {
      majors: [{ code: 'composure', mark: 'NO-GO' as const, atCall: 4, faults: ['laughed', 'spoke'] }],
      minors: [
        {
          code: 'draw',
          trials: ['correct' as const, 'correct' as const],
          faults: [{ trial: 1, code: 'slow' }],
          // The first reading makes its trial incorrect and adds the fault of its side; the second is overridden.
          readings: [
            { trial: 1, gauge: 'tip', value: '6.01' },
            { trial: 2, gauge: 'tip', value: '7', override: 'wind' },
          ],
        },
      ],
    }
    const counted = counts(sheet)
    expect(byMeasure(counted)).toEqual({
      uniform: [0, 0, 0, 0],
      composure: [1, 1, 1, 1],
      draw: [0, 0, 2, 1],
      turn: [0, 0, 0, 0],
      halt: [0, 0, 0, 0],
    })
    expect(byFault(counted)).toEqual(['composure spoke 1', 'composure laughed 1', 'draw slow 1', 'draw tip-high 1'])
    const [tip] = layout.gauges
    expect(counted.readings[tip!.start]).toBe(1)
    expect(counted.readings.reduce((sum, n) => sum + n, 0)).toBe(3)
    expect(counted.readings[tip!.start + 1 + tip!.grid.placeOf('6.01')]).toBe(1)
  })

  test('an outcome-only record counts nothing, at all places', () => {
    const { measures, faults, readings } = counts({ majors: [], minors: [], outcomeOnly: 'GO' })
    expect([measures.length, faults.length, readings.length]).toEqual([20, 7, readingCounters(layout)])
    expect([...measures, ...faults, ...readings].every((n) => n === 0)).toBe(true)
  })
})

describe('the pattern of marks', () => {
  const patternOf = (sheet: Parameters<typeof counts>[0]) =>
    markPattern(DEFINITION, scoreSheet(DEFINITION, sheet), sheet.majors)

  test('has a letter for every measure, majors first, in the order of the definition', () => {
    expect(patternOf(marks('draw', 'halt'))).toBe('GGNGN')
    expect(patternOf({ ...marks('draw'), minors: [...marks('draw').minors].reverse() })).toBe('GGNGG')
    expect(patternOf({ majors: [{ code: 'composure', mark: 'NO-GO', atCall: 0 }], minors: [] })).toBe('-N---')
    expect(patternOf({ majors: [], minors: [], outcomeOnly: 'GO' })).toBe('')
  })

  test('is read back by measure', () => {
    const { majors, minors } = readPattern(DEFINITION, '-NGN-')
    expect([...majors]).toEqual([
      ['uniform', null],
      ['composure', 'NO-GO'],
    ])
    expect([...minors]).toEqual([
      ['draw', 'GO'],
      ['turn', 'NO-GO'],
      ['halt', null],
    ])
  })
})
