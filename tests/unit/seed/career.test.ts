import { describe, expect, test } from 'vitest'
import { type Step, toServiceRecord } from '../../../seed/generate/career.ts'

const joined: Step = { from: '2025-01-10', grade: 'SPC', unitKey: 'a-1' }

describe('a service record', () => {
  test('begins with the first step, with the arms of its grade', () => {
    expect(toServiceRecord([joined])).toEqual({
      grade: 'SPC',
      arms: ['rifle'],
      unitKey: 'a-1',
      from: '2025-01-10',
      changes: [],
    })
  })

  test('names only what changes; a corporal takes up the sword, a lieutenant the saber', () => {
    const { changes } = toServiceRecord([
      joined,
      { from: '2025-02-01', grade: 'SPC', unitKey: 'b-2' },
      { from: '2025-03-01', grade: 'CPL', unitKey: 'b-2' },
      { from: '2025-04-01', grade: 'SGT', unitKey: 'b-2' },
      { from: '2025-05-01', grade: '2LT', unitKey: 'c-3' },
    ])
    expect(changes).toEqual([
      { from: '2025-02-01', unitKey: 'b-2' },
      { from: '2025-03-01', grade: 'CPL', arms: ['sword', 'rifle'] },
      { from: '2025-04-01', grade: 'SGT' },
      { from: '2025-05-01', grade: '2LT', arms: ['saber', 'rifle'], unitKey: 'c-3' },
    ])
  })

  test('names the unit again on return, even where it is the old one', () => {
    const { changes } = toServiceRecord([
      joined,
      { from: '2025-06-01', left: 'transferred' },
      { from: '2025-09-01', grade: 'SPC', unitKey: 'a-1' },
      { from: '2025-10-01', left: 'separated' },
    ])
    expect(changes).toEqual([
      { from: '2025-06-01', left: 'transferred' },
      { from: '2025-09-01', unitKey: 'a-1' },
      { from: '2025-10-01', left: 'separated' },
    ])
  })

  test('refuses steps that do not begin with joining or do not rise', () => {
    expect(() => toServiceRecord([])).toThrow(RangeError)
    expect(() => toServiceRecord([{ from: '2025-01-10', left: 'other' }])).toThrow(RangeError)
    expect(() => toServiceRecord([joined, { ...joined }])).toThrow('2025-01-10')
  })
})
