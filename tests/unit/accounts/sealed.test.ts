import { randomBytes } from 'node:crypto'
import { expect, it } from 'vitest'
import { seal, unseal } from '../../../server/accounts/services/sealed.ts'

const key = randomBytes(32)

it('opens what it sealed, under the same key, for the same thing, unchanged', () => {
  const sealed = seal(key, 'Größe ✓', 'one')
  expect(unseal(key, sealed, 'one')).toBe('Größe ✓')
  expect(unseal(randomBytes(32), sealed, 'one')).toBeNull()
  expect(unseal(key, sealed, 'two')).toBeNull()
  for (let at = 0; at < sealed.length; at += 1) {
    const changed = Buffer.from(sealed)
    changed[at]! ^= 1
    expect(unseal(key, changed, 'one')).toBeNull()
  }
  for (let length = 0; length < sealed.length; length += 1) {
    expect(unseal(key, sealed.subarray(0, length), 'one')).toBeNull()
  }
})

it('seals the same twice in two ways', () => {
  expect(seal(key, 'x', 'one').equals(seal(key, 'x', 'one'))).toBe(false)
})
