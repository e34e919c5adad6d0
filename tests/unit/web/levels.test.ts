import { describe, expect, it } from 'vitest'
import type { UnitLevel } from '../../../server/contract/soldiers/levels.ts'
import { FIRST_LEVELS } from '../../../server/domain/people/levels.ts'
import { comparedLevel, formatTree, levelBelow, levelOf, mostlyOf } from '../../../web/domain/soldiers/levels.ts'
import { unitsInOrder } from '../../../web/domain/soldiers/unit-tree.ts'
import {
  BEGINNINGS,
  begunWith,
  likelyPlural,
  renamed,
  withLevel,
  withoutLevel,
} from '../../../web/features/soldiers/units/edit-levels.ts'
import { formatAlong, formatRequired, formatStays } from '../../../web/features/soldiers/units/format-move.ts'
import { unit } from './given.ts'

const LEVELS: UnitLevel[] = FIRST_LEVELS.map((level) => ({ ...level }))
const GUARD = [unit(1, 'Guard', null), unit(2, '2nd Platoon', 1), unit(3, '10th Platoon', 1)]

describe('the words of a unit', () => {
  it('count its tree from the top down', () => {
    expect(formatTree(LEVELS, GUARD)).toBe('One unit and two platoons.')
    expect(formatTree(LEVELS, [])).toMatch(/^There is no unit yet/)
  })

  it('are those for any unit while the levels are not known', () => {
    expect([levelOf(undefined, 'platoon').many, comparedLevel(undefined).one]).toEqual(['units', 'unit'])
    expect(mostlyOf(undefined, GUARD).one).toBe('unit')
    expect([mostlyOf(LEVELS, GUARD).one, comparedLevel(LEVELS).many]).toEqual(['platoon', 'companies'])
  })

  it('go down by one level, and stay at the lowest', () => {
    expect(['unit', 'company', 'platoon', undefined].map((kind) => levelBelow(LEVELS, kind))).toEqual([
      'company',
      'platoon',
      'platoon',
      'unit',
    ])
  })

  it('are made plural as English mostly does, and follow a new word until somebody says otherwise', () => {
    expect(['company', 'flight', 'branch', 'relay', 'party'].map(likelyPlural)).toEqual([
      'companies',
      'flights',
      'branches',
      'relays',
      'parties',
    ])
    expect(renamed(LEVELS[1]!, 'squadron').many).toBe('squadrons')
    expect(renamed({ ...LEVELS[1]!, many: 'coys' }, 'coy').many).toBe('coys')
  })

  it('get codes of their own, and one level is compared whatever is taken out', () => {
    const more = withLevel(withLevel(LEVELS, 'Color Team'), 'Color  team')
    expect(more.map(({ code }) => code).slice(3)).toEqual(['color-team', 'color-team-2'])
    expect(withoutLevel(LEVELS, 1).map(({ code, compared }) => [code, compared])).toEqual([
      ['unit', false],
      ['platoon', true],
    ])
  })

  it('begin with others, and keep the level of every unit', () => {
    for (const beginning of BEGINNINGS) {
      const begun = begunWith(LEVELS, new Set(['unit', 'company', 'platoon']), beginning)
      expect(begun.slice(0, beginning.length).map(({ one }) => one)).toEqual(beginning.map(([one]) => one))
      expect(begun.map(({ code }) => code)).toEqual(expect.arrayContaining(['unit', 'company', 'platoon']))
      expect(begun.filter(({ compared }) => compared)).toHaveLength(1)
    }
  })
})

describe('the order of sisters', () => {
  const namesOf = (units: typeof GUARD) => unitsInOrder(units).map(({ unit: { name } }) => name)

  it('is that of their numbers until the unit has its own', () => {
    expect(namesOf(GUARD)).toEqual(['Guard', '2nd Platoon', '10th Platoon'])
    const [top, second, tenth] = GUARD
    expect(namesOf([top!, { ...second!, place: 2 }, { ...tenth!, place: 1 }])).toEqual([
      'Guard',
      '10th Platoon',
      '2nd Platoon',
    ])
  })
})

describe('a move', () => {
  const told = { from: '2026-06-01', units: 3, people: 28, testDays: 1, ceremonies: 2, accounts: 1, zone: null }

  it('is told with all that goes along, and what stays', () => {
    const today = '2026-05-01'
    expect(formatAlong({ ...told, required: [] }, '2nd Platoon', 'in B Company', today)).toBe(
      'From 1 Jun on 2nd Platoon goes on in B Company, with 28 soldiers, two units below it, one test day, two ceremonies and one account.',
    )
    expect(formatStays({ ...told, required: [] }, '2nd Platoon, A Company', today)).toMatch(
      /^What was before that day stays with 2nd Platoon, A Company/,
    )
  })

  it('says which certifications are required otherwise', () => {
    expect(formatRequired({ ...told, required: [] })).toBeNull()
    expect(formatRequired({ ...told, required: ['Sword', 'Rifle'] })).toMatch(/^Sword and Rifle are required/)
  })
})
