import { describe, expect, test } from 'vitest'
import { createNames, familyNames, givenNames } from '../../../seed/generate/names.ts'
import { createRandom } from '../../../seed/generate/random.ts'

const drawNames = (seed: number, count: number) => {
  const next = createNames(createRandom(seed))
  return Array.from({ length: count }, next)
}

describe('the stock of names', () => {
  test('is large enough and has no name twice', () => {
    expect(familyNames.length).toBeGreaterThanOrEqual(180)
    expect(givenNames.length).toBeGreaterThanOrEqual(180)
    expect(new Set(familyNames).size).toBe(familyNames.length)
    expect(new Set(givenNames).size).toBe(givenNames.length)
  })

  test('has what real rosters have: apostrophes, hyphens, accents, a script from right to left', () => {
    for (const pattern of [/'/, /-/, /[À-ž]/])
      expect(familyNames.filter((name) => pattern.test(name)).length).toBeGreaterThan(3)
    expect(givenNames.filter((name) => /[\u0590-\u06ff]/.test(name)).length).toBeGreaterThanOrEqual(3)
    for (const name of [...familyNames, ...givenNames]) expect(name).toMatch(/^[\p{L}\p{M}'-]{2,20}$/u)
  })
})

describe('drawn names', () => {
  test('never give the same person twice, and no family name much oftener than another', () => {
    const people = drawNames(3, 2000)
    expect(new Set(people.map(({ givenName, familyName }) => `${givenName} ${familyName}`)).size).toBe(2000)
    const times = familyNames.map((name) => people.filter((one) => one.familyName === name).length)
    expect(Math.max(...times) - Math.min(...times)).toBeLessThanOrEqual(1)
  })

  test('are the same for the same seed', () => {
    expect(drawNames(4, 100)).toEqual(drawNames(4, 100))
    expect(drawNames(4, 100)).not.toEqual(drawNames(5, 100))
  })

  test('end with an error when every pair is used up', () => {
    const pairs = familyNames.length * givenNames.length
    const next = createNames(createRandom(6))
    for (let count = 0; count < pairs; count++) next()
    expect(next).toThrow(RangeError)
  })
})
