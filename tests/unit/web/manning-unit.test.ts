import { describe, expect, it } from 'vitest'
import { manningUnit, plannableUnits } from '../../../web/features/ceremonies/manning-unit.ts'
import { id, unit } from './given.ts'

const units = [
  unit(1, 'Battalion', null, 'America/New_York'),
  unit(2, 'A Company', 1),
  unit(3, '1st Platoon', 2),
  unit(4, '2nd Platoon', 2),
  unit(5, 'B Company', 1),
]
const names = (roles: ('leader' | 'office')[], unitId: string | null) =>
  plannableUnits(units, { roles, unitId }).map(({ name }) => name)

describe('the unit that mans a ceremony', () => {
  it('is chosen from the planner’s own and those below it; by the office from all', () => {
    expect(names(['leader'], id(2))).toEqual(['A Company', '1st Platoon', '2nd Platoon'])
    expect(names(['leader'], id(4))).toEqual(['2nd Platoon'])
    expect(names(['leader'], null)).toEqual([])
    expect(names(['office'], null)).toHaveLength(5)
  })
  it('of a copy is the one copied from where the planner may use it, else the planner’s own', () => {
    const company = plannableUnits(units, { roles: ['leader'], unitId: id(2) })
    expect(manningUnit(company, id(2), id(4))).toBe(id(4))
    expect(manningUnit(company, id(2), id(1))).toBe(id(2))
    expect(manningUnit(company, id(2), id(5))).toBe(id(2))
    expect(manningUnit(company, id(2), undefined)).toBe(id(2))
    expect(manningUnit(units, null, undefined)).toBe(id(1))
    expect(manningUnit([], null, id(1))).toBe('')
  })
})
