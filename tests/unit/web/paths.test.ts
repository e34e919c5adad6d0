import { expect, it } from 'vitest'
import { addressTo, gradePaths, paths } from '../../../web/paths.ts'

it('fills in parameters', () => {
  expect(addressTo(paths.ceremony, { id: 7 })).toBe('/ceremonies/7')
  expect(addressTo(paths.review, { soldierId: 'a', standard: 'b' })).toBe('/retests/a/b/review')
  expect(addressTo(gradePaths.debrief, { id: 'x' })).toBe('/grade/x/debrief')
  expect(addressTo(paths.standard, { id: 'a/b c' })).toBe('/standards/a%2Fb%20c')
})

it('makes a query of the rest, without what is left open', () => {
  expect(addressTo(paths.candidate, { id: 'x', standard: 'rifle & sword' })).toBe(
    '/candidates/x?standard=rifle+%26+sword',
  )
  expect(addressTo(paths.stand, { unitId: undefined, certification: '' })).toBe('/stand')
  expect(addressTo(paths.stand, { unitId: 'u', asOf: '2026-06-15' })).toBe('/stand?unitId=u&asOf=2026-06-15')
})

it('does not compile without a value for each parameter', () => {
  // @ts-expect-error the soldier's id is missing
  addressTo(paths.candidate, {})
  // @ts-expect-error no such path
  addressTo('/somewhere', {})
})
