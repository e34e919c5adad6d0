import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { nameSkeleton } from '../../../../server/domain/access/name-skeleton.ts'
import { proposeNames } from '../../../../server/domain/access/propose-names.ts'

const person = (familyName: string, givenName: string) => ({ familyName, givenName })

describe('names proposed for accounts', () => {
  it('are made of people’s own, without what is slow to type', () => {
    expect(
      proposeNames([person('Ashdown', 'Mirela'), person('O’Brien-Šustar', 'José Ana'), person('–', '–')], []),
    ).toEqual(['ashdown.mirela', 'obriensustar.joseana', 'soldier'])
  })

  it('go on with a number where one is taken or looks like one that is', () => {
    const double = person('Hill', 'Al')
    expect(proposeNames([double, double, double], [])).toEqual(['hill.al', 'hill.al2', 'hill.al3'])
    expect(proposeNames([double], ['HlLL.AI'])).toEqual(['hill.al2'])
  })

  it('never look like each other or like one there is, and fit an account', () => {
    const name = fc.string({ unit: fc.constantFrom('i', 'l', '1', 'I', 'é', 'e', 'о', 'o', '0', ' '), maxLength: 4 })
    const long = fc.oneof(name, fc.constant('n'.repeat(150)))
    fc.assert(
      fc.property(fc.array(fc.tuple(long, name)), fc.array(name), (people, taken) => {
        const names = proposeNames(
          people.map(([family, given]) => person(family, given)),
          taken,
        )
        const skeletons = [...names, ...new Map(taken.map((one) => [nameSkeleton(one), one])).values()].map(
          nameSkeleton,
        )
        expect(new Set(skeletons).size).toBe(skeletons.length)
        for (const each of names) expect(each).toMatch(/^.{1,100}$/u)
      }),
    )
  })
})
