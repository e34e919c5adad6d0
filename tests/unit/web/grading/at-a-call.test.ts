import fs from 'node:fs'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { StandardBody } from '../../../../server/contract/standards/standards.ts'
import type { ListedBooking } from '../../../../server/contract/test-days/day-list.ts'
import { faultsToOffer, NONE_NOTED } from '../../../../web/domain/sheets/grading/fault-order.ts'
import { nextBooking } from '../../../../web/domain/sheets/grading/turn-of.ts'
import { cadenceOf, countedTaps, perMinute } from '../../../../web/features/sheets/grade/cadence.ts'
import { formatStep } from '../../../../web/features/sheets/grade/format-step.ts'
import { actionOf } from '../../../../web/features/sheets/grade/marking-keys.ts'
import { readingAt, stepReading } from '../../../../web/features/sheets/grade/step-reading.ts'
import '../../domain/statistics/fixed-seed.ts'

const standing = StandardBody.parse(JSON.parse(fs.readFileSync('tests/cases/standard-standing.json', 'utf8')))
const standard = { ...standing, id: '', publishedAt: null }

describe('a cadence by tapping along', () => {
  it('is the rate of even taps, whatever it is', () => {
    fc.assert(
      fc.property(fc.integer({ min: 40, max: 200 }), fc.integer({ min: 5, max: 40 }), (rate, count) => {
        const taps = Array.from({ length: count }, (_, tap) => 1000 + (tap * 60_000) / rate)
        expect(cadenceOf(taps)).toBe(rate)
      }),
    )
  })
  it('is hardly moved by one late tap, where the first and last alone would be', () => {
    const even = Array.from({ length: 9 }, (_, tap) => tap * 500)
    const late = [...even.slice(0, -1), even.at(-1)! + 120]
    expect(cadenceOf(even)).toBe(120)
    expect(Math.abs(cadenceOf(late)! - 120)).toBeLessThanOrEqual(2)
    expect(Math.abs(Math.round((8 * 60_000) / late.at(-1)!) - 120)).toBeGreaterThan(2)
  })
  it('needs five taps, and begins anew after a break', () => {
    expect(cadenceOf([0, 500, 1000, 1500])).toBeNull()
    expect(countedTaps([0, 500, 1000, 9000, 9500])).toEqual([9000, 9500])
    expect(countedTaps([])).toEqual([])
  })
  it('is offered for a rate a minute and nothing else', () => {
    expect(['steps/min', 'steps per minute', 'bpm'].map(perMinute)).toEqual([true, true, true])
    expect(['in', 'deg', 'min', 'mm'].map(perMinute)).toEqual([false, false, false, false])
  })
})

describe('what is offered at a call', () => {
  it('puts the faults a grader has to see before those a reading notes by itself', () => {
    const present = standing.minors.find(({ code }) => code === 'present-from-carry')!
    const titles = faultsToOffer(present, standing.gauges, NONE_NOTED).map(({ code }) => code)
    expect(titles).toHaveLength(present.faults.length)
    expect(titles.slice(-3).sort()).toEqual(['present-angle-off', 'tip-high', 'tip-low'])
  })
  it('puts what the unit is marked for most first among them, and keeps the order of the standard in ties and without data', () => {
    const present = standing.minors.find(({ code }) => code === 'present-from-carry')!
    const order = (counts: Record<string, number>, measure = present.code) =>
      faultsToOffer(present, standing.gauges, new Map([[measure, new Map(Object.entries(counts))]])).map(
        ({ code }) => code,
      )
    const plain = order({})
    const [first, second, third] = plain
    expect(order({ [third!]: 5, [second!]: 2 }).slice(0, 3)).toEqual([third, second, first])
    expect(order({ [third!]: 2, [second!]: 2 }).slice(0, 3)).toEqual([second, third, first])
    expect(order({ 'tip-low': 90 }).indexOf('tip-low')).toBeGreaterThanOrEqual(plain.length - 3)
    expect(order({ [third!]: 5 }, 'another-measure')).toEqual(plain)
  })
  it('reads a tap on the band as what stepping would reach', () => {
    const tip = standing.gauges.find(({ code }) => code === 'tip-height')!
    expect(readingAt(tip, 4.9)).toBe('5')
    expect(readingAt(tip, 3.76)).toBe(stepReading(tip, '3.5', 1) === '4' ? '4' : '3.75')
  })
  it('says what a step was', () => {
    const step = { number: 1, at: 0, trials: {}, majors: {} }
    const faces = standing.calls.flatMap(({ measure }, call) => (measure === 'right-face' ? [call] : []))
    const say = (event: Parameters<typeof formatStep>[2]['event']) =>
      formatStep(standard, standing.calls, { ...step, event })
    expect(say({ kind: 'mark', call: 0, mark: 'correct' })).toBe('Draw, trial 1 of 3: correct')
    expect(say({ kind: 'marks', calls: faces, mark: 'correct' })).toBe('Right face, trials 1 to 3: correct')
    expect(say({ kind: 'major', major: 'uniform', mark: 'NO-GO' })).toBe('Uniform: NO-GO')
  })
})

describe('a key', () => {
  const own = { correct: 'PageDown', incorrect: 'AudioVolumeDown', undo: 'Enter' }
  const press = (key: string, more = {}) => ({
    ...{ key, code: '', shiftKey: false, ctrlKey: false, altKey: false, metaKey: false, repeat: false },
    ...more,
  })
  it('of a clicker does what it was set to, with single keys off as well', () => {
    const actions = ['PageDown', 'AudioVolumeDown', 'Enter', '1'].map((key) =>
      actionOf(press(key), { keys: false, own }),
    )
    expect(actions).toEqual([
      { kind: 'mark', mark: 'correct' },
      { kind: 'mark', mark: 'incorrect' },
      { kind: 'undo' },
      null,
    ])
  })
  it('that is held down does nothing more', () => {
    expect(actionOf(press('PageDown', { repeat: true }), { keys: true, own })).toBeNull()
    expect(actionOf(press('1', { repeat: true }), { keys: true, own })).toBeNull()
  })
})

describe('the next candidate', () => {
  const booking = (id: string, part: Partial<ListedBooking> = {}) =>
    ({
      id,
      on: '2026-06-17',
      state: 'booked',
      standard: 'sword',
      asSecond: false,
      candidate: { id },
      ...part,
    }) as ListedBooking
  const day = [booking('a'), booking('b'), booking('c'), booking('d', { on: '2026-06-18' })]
  const next = (bookings: ListedBooking[], after: string | null) => nextBooking(bookings, [], '2026-06-17', after)?.id

  it('is the one after, then those passed over, and nobody of another day', () => {
    expect([next(day, 'a'), next(day, 'c'), next(day, null)]).toEqual(['b', 'a', 'a'])
    expect(next([day[0]!, day[3]!], 'a')).toBeUndefined()
  })
  it('is whoever is checked in before who is not there yet, and nobody who is through', () => {
    expect(next([day[0]!, day[1]!, booking('c', { state: 'checked in' })], 'a')).toBe('c')
    expect(next([day[0]!, booking('b', { state: 'no-show' }), day[2]!], 'a')).toBe('c')
  })
})
