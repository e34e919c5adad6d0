import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { joinList, splitList } from '../../../../server/domain/import/list-notation.ts'
import {
  parseFaults,
  parseReadings,
  parseTrials,
  printFaults,
  printReadings,
  printTrials,
} from '../../../../server/domain/import/mark-notation.ts'

const RUNS = { seed: 20261125, numRuns: 1000 }
const code = fc.stringMatching(/^[A-Za-z0-9][A-Za-z0-9._-]{0,20}$/)
const trial = fc.integer({ min: 1, max: 99 })
const said = fc.string().filter((text) => text === text.trim())

describe('what is written is what is read (property)', () => {
  it('of trials', () =>
    fc.assert(
      fc.property(fc.array(fc.constantFrom('correct' as const, 'incorrect' as const, null)), (trials) => {
        expect(parseTrials(printTrials(trials))).toEqual({ value: trials })
      }),
      RUNS,
    ))

  it('of faults', () =>
    fc.assert(
      fc.property(fc.array(fc.record({ trial, code })), (faults) => {
        expect(parseFaults(printFaults(faults))).toEqual({ value: faults })
      }),
      RUNS,
    ))

  it('of readings, with one gauge or several, and with overrides', () => {
    const reading = (gauges: string[]) =>
      fc.record({
        trial,
        gauge: fc.constantFrom(...gauges),
        value: fc.stringMatching(/^-?[0-9]{1,4}(\.[0-9]{1,4})?$/),
        override: fc.option(said),
      })
    const readings = fc
      .uniqueArray(code, { minLength: 1, maxLength: 3 })
      .chain((gauges) => fc.tuple(fc.constant(gauges), fc.array(reading(gauges))))
    fc.assert(
      fc.property(readings, ([gauges, list]) => {
        expect(parseReadings(printReadings(list, gauges), gauges)).toEqual({ value: list })
      }),
      RUNS,
    )
  })

  it('of lists', () =>
    fc.assert(
      fc.property(fc.array(said.filter((text) => text !== '')), (items) => {
        expect(splitList(joinList(items))).toEqual(items)
      }),
      RUNS,
    ))
})

describe('the notation', () => {
  it('is that of a training office', () => {
    expect(parseTrials('10.')).toEqual({ value: ['correct', 'incorrect', null] })
    expect(parseTrials('1 0 1')).toEqual({ value: ['correct', 'incorrect', 'correct'] })
    expect(parseFaults('2:forearm-off; 3 : slow')).toEqual({
      value: [
        { trial: 2, code: 'forearm-off' },
        { trial: 3, code: 'slow' },
      ],
    })
    expect(parseReadings('1:5.0;3:6,1', ['tip'])).toEqual({
      value: [
        { trial: 1, gauge: 'tip', value: '5.0', override: null },
        { trial: 3, gauge: 'tip', value: '6.1', override: null },
      ],
    })
  })

  it.each([
    [parseTrials('1x1'), '"x" is none of them'],
    [parseFaults('forearm-off'), 'as in 2:forearm-off'],
    [parseReadings('1:5.0', []), 'no gauge'],
    [parseReadings('1:5.0', ['tip', 'hilt']), 'Say which gauge: 1:tip=5.0'],
    [parseReadings('1:05:00', ['tip']), 'as in 1:5.0'],
  ])('says what is wrong', (parsed, part) => expect(parsed).toMatchObject({ wrong: expect.stringContaining(part) }))
})
