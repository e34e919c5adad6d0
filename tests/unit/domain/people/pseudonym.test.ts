import { expect, it } from 'vitest'
import { pseudonym } from '../../../../server/domain/people/pseudonym.ts'

it('names nobody, and no two alike', () => {
  expect(pseudonym(42)).toEqual({ rosterNumber: 'removed-0042', familyName: 'Removed', givenName: 'Soldier 0042' })
  expect(new Set([1, 11, 111, 11111].map((number) => pseudonym(number).rosterNumber)).size).toBe(4)
})
