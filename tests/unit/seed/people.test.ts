import { describe, expect, test } from 'vitest'
import type { PlannedChange } from '../../../seed/generate/career.ts'
import { generateUnit, type PlannedSoldier } from '../../../seed/generate/people.ts'
import { createRandom } from '../../../seed/generate/random.ts'
import { SoldierBody, SoldierChangeBody, UnitBody } from '../../../server/contract/soldiers/soldiers.ts'
import { addMonths } from '../../../server/domain/calendar/add-months.ts'
import { addDays } from '../../../server/domain/calendar/plain-date.ts'

const SOLDIERS = ['PVT', 'PFC', 'SPC']
const NCOS = ['CPL', 'SGT', 'SSG', 'SFC', 'MSG', '1SG', 'SGM']
const OFFICERS = ['2LT', '1LT', 'CPT', 'MAJ', 'LTC']
const SOME_ID = '00000000-0000-4000-8000-000000000000'

/** Grade, arms and unit on a day, read from the changes as the API describes them; null outside the strength. */
function asOf(soldier: PlannedSoldier, day: string): { grade: string; arms: string[]; unitKey: string } | null {
  if (day < soldier.from) return null
  const state = {
    grade: soldier.grade as string,
    arms: soldier.arms as string[],
    unitKey: soldier.unitKey,
    away: false,
  }
  for (const change of soldier.changes.filter((one) => one.from <= day)) {
    if (change.left) state.away = true
    if (change.unitKey) state.away = false
    state.grade = change.grade ?? state.grade
    state.arms = change.arms ?? state.arms
    state.unitKey = change.unitKey ?? state.unitKey
  }
  const { away, ...held } = state
  return away ? null : held
}

const cases = [
  { seed: 1, today: '2026-11-25' },
  { seed: 2, today: '2028-02-29' },
  { seed: 20261125, today: '2027-01-01' },
  { seed: -7, today: '2026-03-31' },
].map((one) => ({ ...one, ...generateUnit({ random: createRandom(one.seed), today: one.today }) }))

test('the same seed and day give the same people; another seed or day gives others', () => {
  const make = (seed: number, today: string) => generateUnit({ random: createRandom(seed), today })
  expect(make(1, '2026-11-25')).toEqual(make(1, '2026-11-25'))
  expect(make(1, '2026-11-25')).not.toEqual(make(2, '2026-11-25'))
  expect(make(1, '2026-11-25')).not.toEqual(make(1, '2026-11-26'))
})

test.each(['', 'today', '2026-02-30', '2026-11-25T10:00', '20261125'])('"%s" is refused as a day', (today) => {
  expect(() => generateUnit({ random: createRandom(1), today })).toThrow('YYYY-MM-DD')
})

describe.each(cases)('people of seed $seed, loaded on $today', ({ today, units, soldiers }) => {
  const opening = addMonths(today, -24)
  const present = soldiers.flatMap((soldier) => asOf(soldier, today) ?? [])
  const platoons = units.filter((unit) => unit.kind === 'platoon')

  test('the tree: three companies of four platoons and a headquarters, parents first, fit for the API', () => {
    expect(units.map((unit) => unit.kind).toSorted()).toEqual([
      ...Array(3).fill('company'),
      ...Array(12).fill('platoon'),
      ...Array(2).fill('unit'),
    ])
    const seen = new Set<string | null>([null])
    for (const { key, parentKey, ...unit } of units) {
      expect(seen).toContain(parentKey)
      expect(seen).not.toContain(key)
      seen.add(key)
      expect(UnitBody.safeParse({ ...unit, parentId: parentKey && SOME_ID }).error, key).toBeUndefined()
    }
    for (const company of units.filter((unit) => unit.kind === 'company')) {
      const names = units.filter((unit) => unit.parentKey === company.key).map((unit) => unit.name)
      expect(names).toEqual(['1st Platoon', '2nd Platoon', '3rd Platoon', '4th Platoon'])
    }
  })

  test('roster numbers and names are unique', () => {
    expect(new Set(soldiers.map((soldier) => soldier.rosterNumber)).size).toBe(soldiers.length)
    expect(new Set(soldiers.map((soldier) => `${soldier.givenName} ${soldier.familyName}`)).size).toBe(soldiers.length)
    for (const soldier of soldiers) expect(soldier.rosterNumber).toMatch(/^CP-\d{4}$/)
  })

  test('every soldier and every change is what the API takes', () => {
    const change = ({ unitKey, ...rest }: PlannedChange) => ({ ...rest, ...(unitKey ? { unitId: SOME_ID } : {}) })
    for (const { duty: _, changes, unitKey: __, ...soldier } of soldiers) {
      expect(SoldierBody.safeParse({ ...soldier, unitId: SOME_ID }).error, soldier.rosterNumber).toBeUndefined()
      for (const one of changes)
        expect(SoldierChangeBody.safeParse(change(one)).error, soldier.rosterNumber).toBeUndefined()
    }
  })

  test('strength is about 360, spread evenly over the platoons, and never far less since the record opens', () => {
    expect(present.length).toBeGreaterThanOrEqual(345)
    expect(present.length).toBeLessThanOrEqual(375)
    expect(soldiers.length - present.length).toBeGreaterThanOrEqual(60)
    expect(soldiers.length - present.length).toBeLessThanOrEqual(150)
    for (const platoon of platoons) {
      const strength = present.filter((soldier) => soldier.unitKey === platoon.key).length
      expect(strength, platoon.key).toBeGreaterThanOrEqual(22)
      expect(strength, platoon.key).toBeLessThanOrEqual(30)
    }
    for (let months = 0; months <= 24; months++) {
      const day = addMonths(today, -months)
      expect(soldiers.filter((soldier) => asOf(soldier, day)).length, day).toBeGreaterThanOrEqual(240)
    }
  })

  test('grades are those of a guard: few officers, a third NCOs or more, half in the ranks', () => {
    const share = (grades: string[]) =>
      present.filter((soldier) => grades.includes(soldier.grade)).length / present.length
    expect(share(OFFICERS)).toBeGreaterThan(0.04)
    expect(share(OFFICERS)).toBeLessThan(0.1)
    expect(share(NCOS)).toBeGreaterThan(0.33)
    expect(share(SOLDIERS)).toBeGreaterThan(0.4)
    for (const grade of [...SOLDIERS, ...NCOS, ...OFFICERS]) expect(present.map((one) => one.grade)).toContain(grade)
  })

  test('every platoon has a leader and a platoon sergeant on every day since the record opens', () => {
    const duties = { 'executive officer': 'platoon leader', 'first sergeant': 'platoon sergeant' }
    const leaders = soldiers.filter(({ duty }) => [...Object.keys(duties), ...Object.values(duties)].includes(duty))
    for (let day = opening; day <= today; day = addDays(day, 1)) {
      for (const { key } of platoons) {
        const held = (duty: string, grades: string[]) =>
          leaders.some((soldier) => {
            const state = asOf(soldier, day)
            // The duty is the last one held: the executive officer and first sergeant of today led and served here before.
            const then = state?.unitKey === key ? (duties[soldier.duty as keyof typeof duties] ?? soldier.duty) : null
            return then === duty && grades.includes(state?.grade ?? '')
          })
        expect(held('platoon leader', ['2LT', '1LT']), `leader of ${key} on ${day}`).toBe(true)
        expect(held('platoon sergeant', ['SSG', 'SFC']), `sergeant of ${key} on ${day}`).toBe(true)
      }
    }
  })

  test('today each platoon has exactly one leader and one platoon sergeant, each company its commander and first sergeant', () => {
    const holding = (unitKey: string, duty: string) =>
      soldiers.filter((soldier) => soldier.duty === duty && asOf(soldier, today)?.unitKey === unitKey).length
    for (const { key } of platoons)
      expect([holding(key, 'platoon leader'), holding(key, 'platoon sergeant')], key).toEqual([1, 1])
    for (const key of ['a', 'b', 'c']) {
      const duties = ['company commander', 'executive officer', 'first sergeant']
      expect(
        duties.map((duty) => holding(key, duty)),
        key,
      ).toEqual([1, 1, 1])
    }
  })

  test('changes rise in time, lie within the record, and make sense one after the other', () => {
    for (const { rosterNumber, from, changes, grade, arms } of soldiers) {
      const state = { day: from, grade: grade as string, arms: arms as string[], away: false }
      for (const change of changes) {
        expect(change.from > state.day && change.from >= opening && change.from <= today, rosterNumber).toBe(true)
        if (state.away) expect(change.unitKey, `${rosterNumber} returns`).toBeDefined()
        if (change.grade) expect(change.grade, `${rosterNumber} rises`).not.toBe(state.grade)
        state.away = change.left !== undefined
        state.day = change.from
        state.grade = change.grade ?? state.grade
        state.arms = change.arms ?? state.arms
        const carries = OFFICERS.includes(state.grade) ? 'saber' : NCOS.includes(state.grade) ? 'sword' : null
        expect(state.arms, `${rosterNumber} as ${state.grade}`).toEqual(carries ? [carries, 'rifle'] : ['rifle'])
      }
    }
  })

  test('there are arrivals, moves, promotions, sergeants who became officers, leaves and returns', () => {
    const having = (fits: (change: PlannedChange, index: number, all: PlannedChange[]) => boolean) =>
      soldiers.filter((soldier) => soldier.changes.some(fits)).length
    expect(soldiers.filter((soldier) => soldier.from > opening).length).toBeGreaterThan(80)
    expect(having((change) => change.unitKey !== undefined && !change.grade)).toBeGreaterThan(20)
    expect(having((change) => change.grade !== undefined)).toBeGreaterThan(80)
    expect(having((change, index, all) => change.left !== undefined && index < all.length - 1)).toBeGreaterThan(2)
    expect(having((change) => change.left === 'separated')).toBeGreaterThan(10)
    expect(
      soldiers.filter((one) => NCOS.includes(one.grade) && one.changes.some((change) => change.grade === '2LT')),
    ).toHaveLength(3)
  })
})
