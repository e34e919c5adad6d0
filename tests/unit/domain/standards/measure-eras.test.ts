import { describe, expect, test } from 'vitest'
import { measureEras } from '../../../../server/domain/standards/measure-eras.ts'
import { type DEFINITION, version } from '../tallies/given.ts'

/** Versions pooled with version 1, by measure. */
const pooledWithFirst = (change: Parameters<typeof version>[1]) => {
  const eras = measureEras([version(2, change), version(1)]).get(1)!
  return [...eras].filter(([, { versions }]) => versions.includes(2)).map(([code]) => code)
}
const all = ['uniform', 'composure', 'draw', 'turn', 'halt']
const without = (...codes: string[]) => all.filter((code) => !codes.includes(code))

describe('which versions are pooled for a measure', () => {
  test('all, where only titles of measures and gauges, the percentage or the order differ', () => {
    expect(pooledWithFirst((same) => same)).toEqual(all)
    const reworded = pooledWithFirst((old) => ({
      ...old,
      rule: { ...old.rule, percent: '80' },
      minors: [...old.minors].reverse().map((minor) => ({ ...minor, title: `${minor.title}, by the book` })),
      gauges: old.gauges.map((gauge) => ({ ...gauge, title: 'Gauge', origin: 'ground' })),
    }))
    expect(reworded).toEqual(all)
  })

  test('not those with another band, for every measure the gauge belongs to', () => {
    const wider = (old: typeof DEFINITION) => ({
      ...old,
      gauges: old.gauges.map((gauge) => (gauge.code === 'tip' ? { ...gauge, max: '7' } : gauge)),
    })
    expect(pooledWithFirst(wider)).toEqual(without('draw', 'halt'))
  })

  test('not those with other faults, for that measure; nor with another rule, for any minor', () => {
    const fault = { code: 'fast', title: 'Fast' }
    const stricter = (old: typeof DEFINITION) => ({
      ...old,
      majors: old.majors.map((major) => (major.code === 'uniform' ? { ...major, faults: [fault] } : major)),
    })
    expect(pooledWithFirst(stricter)).toEqual(without('uniform'))
    expect(pooledWithFirst((old) => ({ ...old, rule: { ...old.rule, needed: 3 } }))).toEqual(['uniform', 'composure'])
  })

  test('a definition that comes back joins its former era; the newest is current', () => {
    const changed = (old: typeof DEFINITION) => ({
      ...old,
      minors: old.minors.map((minor) => ({ ...minor, counts: 4 })),
    })
    const eras = measureEras([version(1), version(2, changed), version(3)])
    expect(eras.get(3)!.get('draw')).toEqual({ measure: 'draw', major: false, versions: [1, 3], isCurrent: true })
    expect(eras.get(1)!.get('draw')).toBe(eras.get(3)!.get('draw'))
    expect(eras.get(2)!.get('draw')).toEqual({ measure: 'draw', major: false, versions: [2], isCurrent: false })
    expect(eras.get(2)!.get('uniform')!.versions).toEqual([1, 2, 3])
  })

  test('a measure that a later version dropped is current in its last one', () => {
    const dropped = (old: typeof DEFINITION) => ({ ...old, minors: old.minors.filter(({ code }) => code !== 'turn') })
    const eras = measureEras([version(1), version(2, dropped)])
    expect(eras.get(1)!.get('turn')).toMatchObject({ versions: [1], isCurrent: true })
    expect(eras.get(2)!.has('turn')).toBe(false)
  })
})
