import { describe, expect, it } from 'vitest'
import type { Actor, Role } from '../../../../server/domain/access/actor.ts'
import { mayChangeNote, mayRemoveNote } from '../../../../server/domain/access/coaching-notes.ts'

const actor = (accountId: string, ...roles: Role[]): Actor => ({
  accountId,
  name: accountId,
  roles,
  soldierId: null,
  unitId: null,
  address: null,
})
const note = { byId: 'a', writtenAt: new Date('2026-06-01T12:00:00Z') }

describe('a coaching note', () => {
  it.each([
    ['a', '2026-06-15T12:00:00Z', true],
    ['a', '2026-06-15T12:00:00.001Z', false],
    ['b', '2026-06-01T12:00:00Z', false],
  ])('may be changed by %s at %s: %s', (by, at, expected) => {
    expect(mayChangeNote(actor(by, 'office'), note, new Date(at))).toBe(expected)
  })

  it('may be removed by its author and the office', () => {
    expect(
      [actor('a', 'sponsor'), actor('b', 'office'), actor('b', 'sponsor')].map((by) => mayRemoveNote(by, note)),
    ).toEqual([true, true, false])
  })
})
