import { describe, expect, it } from 'vitest'
import { placeInBand } from '../../../../server/domain/scoring/band.ts'

const band = (min: string | null | undefined, max: string | null | undefined) => ({ code: 'tip-height', min, max })

describe('placeInBand', () => {
  it.each([
    ['6', 'inside'],
    ['6.0', 'inside'],
    ['6.0000', 'inside'],
    ['6.0001', 'high'],
    ['6.01', 'high'],
    ['4', 'inside'],
    ['04.00', 'inside'],
    ['3.9999', 'low'],
    ['-5', 'low'],
    ['10', 'high'],
  ])('puts %s against a band from 4 to 6 %s', (value, place) => {
    expect(placeInBand(band('4', '6.0'), value)).toBe(place)
  })

  it.each([
    ['-2.5', 'inside'],
    ['-2.51', 'low'],
    ['-0', 'inside'],
    ['0.0', 'inside'],
    ['0.0001', 'high'],
  ])('puts %s against a band from -2.5 to 0 %s', (value, place) => {
    expect(placeInBand(band('-2.5', '0'), value)).toBe(place)
  })

  it('takes a missing limit for none', () => {
    expect(placeInBand(band(null, '6'), '-9999.9999')).toBe('inside')
    expect(placeInBand(band('4', undefined), '9999.9999')).toBe('inside')
    expect(placeInBand(band(null, null), '0')).toBe('inside')
    expect(placeInBand(band(undefined, '6'), '7')).toBe('high')
    expect(placeInBand(band('4', null), '3')).toBe('low')
  })
})
