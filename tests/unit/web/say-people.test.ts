import { describe, expect, it } from 'vitest'
import { sayPerson } from '../../../web/features/soldiers/say-people.ts'
import { id } from './given.ts'

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
    expect(sayPerson(nobody, [], '2026-06-20', 'America/New_York')).toBe(
      'Removed 1: name and number were removed on Wednesday 17 June, figures and days stay.',
    )
    expect(sayPerson(nobody, [], '2026-06-20', 'UTC')).toContain('Thursday 18 June')
  })
})
