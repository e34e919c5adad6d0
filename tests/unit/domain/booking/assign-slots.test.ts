import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { assignSlots, type FreeSlot, type SlotSeeker } from '../../../../server/domain/booking/assign-slots.ts'
import { slotTimes } from '../../../../server/domain/booking/slot-times.ts'
import type { ConflictWeight } from '../../../../server/domain/booking/types.ts'

const SEED = 20261125
const slot = (at: number): FreeSlot => ({
  slotId: `slot ${at}`,
  testDayId: 'day',
  day: '2026-07-01',
  graderId: null,
  time: { from: at * 60, to: at * 60 + 60 },
})
const WEIGHTS: readonly (ConflictWeight | null)[] = [null, 'warns', 'holds', 'blocks']
type Table = readonly (readonly (ConflictWeight | null)[])[]

const seekersOf = (table: Table): SlotSeeker[] =>
  table.map((row, at) => ({
    key: String(at),
    candidateId: `candidate ${at}`,
    conflictsAt: ({ slotId }) => {
      const weight = row[Number(slotId.slice(5))] ?? null
      return weight === null ? [] : [{ rule: 'past-due', weight, detail: '' }]
    },
  }))

/** The most that can be placed, by trying everything. */
function mostPlaced(table: Table, at = 0, taken: ReadonlySet<number> = new Set()): number {
  const row = table[at]
  if (!row) return 0
  const without = mostPlaced(table, at + 1, taken)
  return row.reduce((most, weight, nth) => {
    if (weight === 'blocks' || taken.has(nth)) return most
    return Math.max(most, 1 + mostPlaced(table, at + 1, new Set([...taken, nth])))
  }, without)
}

describe('assignSlots', () => {
  const tables = fc
    .integer({ min: 1, max: 5 })
    .chain((width) =>
      fc.array(fc.array(fc.constantFrom(...WEIGHTS), { minLength: width, maxLength: width }), { maxLength: 5 }),
    )

  it('gives no slot twice, none that is refused, and places as many as can be', () => {
    fc.assert(
      fc.property(tables, (table) => {
        const free = Array.from({ length: table[0]?.length ?? 0 }, (_, at) => slot(at))
        const given = assignSlots(seekersOf(table), free)
        const slots = [...given.values()].map(({ slotId }) => slotId)
        expect(new Set(slots).size).toBe(slots.length)
        for (const [key, { slotId }] of given) expect(table[Number(key)]![Number(slotId.slice(5))]).not.toBe('blocks')
        expect(given.size).toBe(mostPlaced(table))
      }),
      { seed: SEED, numRuns: 400 },
    )
  })

  it('lets the first named have the earliest, and moves them only so that somebody else is placed', () => {
    const free = [slot(1), slot(0)]
    const easy = [
      [null, null],
      [null, null],
    ]
    expect([...assignSlots(seekersOf(easy), free)].map(([key, { slotId }]) => [key, slotId]).sort()).toEqual([
      ['0', 'slot 0'],
      ['1', 'slot 1'],
    ])
    const tight = [
      [null, null],
      [null, 'blocks'],
    ] as const
    expect(assignSlots(seekersOf(tight), free).get('1')?.slotId).toBe('slot 0')
    expect(assignSlots(seekersOf(tight), free).get('0')?.slotId).toBe('slot 1')
  })

  it('never gives one candidate two slots at a time', () => {
    const [one, other] = [slot(0), { ...slot(0), slotId: 'slot 9' }]
    const twice = seekersOf([[null], [null]]).map((seeker) => ({ ...seeker, candidateId: 'the same' }))
    expect(assignSlots(twice, [one, other]).size).toBe(1)
    expect(assignSlots(twice, [one, slot(1)]).size).toBe(2)
  })
})

describe('slotTimes', () => {
  it('leaves out a slot that would end too late', () => {
    expect(slotTimes({ from: 480, to: 570 }, 40, 5)).toEqual([
      { from: 480, to: 520 },
      { from: 525, to: 565 },
    ])
    expect(slotTimes({ from: 480, to: 500 }, 40, 0)).toEqual([])
  })
})
