import { describe, expect, it } from 'vitest'
import { distinctNames } from '../../../web/domain/soldiers/format-person.ts'
import { formatPerson } from '../../../web/features/soldiers/format-people.ts'
import { id } from './given.ts'

it('a box of the formation has grade and family name, and as much more as tells two apart who are called alike', () => {
  const person = (n: number, grade: string, name: string, rosterNumber: string) => ({
    id: id(n),
    grade,
    name,
    rosterNumber,
  })
  const names = distinctNames([
    person(1, 'SGT', 'Ashdown, Mirela', '1003'),
    person(2, 'CPL', 'Ashdown, Mirela', '1004'),
    person(3, 'SGT', 'Okonjo, Sela', '1005'),
    person(4, 'SGT', 'Okonjo, Ada', '1006'),
    person(5, 'CPL', 'Vale, Kim', '1007'),
    person(6, 'CPL', 'Vale, Kim', '1008'),
    person(6, 'CPL', 'Vale, Kim', '1008'),
  ])
  expect([...names.values()]).toEqual([
    ...['SGT Ashdown', 'CPL Ashdown', 'SGT Okonjo, Sela', 'SGT Okonjo, Ada'],
    ...['CPL Vale, Kim, 1007', 'CPL Vale, Kim, 1008'],
  ])
})

describe('somebody whose personal data was removed', () => {
  it('was removed on the day it was where the reader is', () => {
    const nobody = {
      id: id(1),
      rosterNumber: 'removed-1',
      familyName: '',
      givenName: 'Removed 1',
      grade: 'SPC',
      arms: [],
      unitId: null,
      joined: '2025-01-06',
      left: { on: '2026-01-31', kind: 'separated' as const },
      removedAt: '2026-06-18T01:30:00Z',
      periods: [],
      sponsors: [],
      candidates: [],
      appointments: [],
      reviews: [],
      withdrawals: [],
      awards: [],
      suspensions: [],
    }
    expect(formatPerson(nobody, [], '2026-06-20', 'America/New_York')).toBe(
      'Removed 1: name and number were removed on Wednesday 17 June, figures and days stay.',
    )
    expect(formatPerson(nobody, [], '2026-06-20', 'UTC')).toContain('Thursday 18 June')
  })
})
