import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { StandardBody } from '../../../server/contract/standards/standards.ts'
import { findStandardProblems } from './find-standard-problems.ts'

const CATALOGUE = new URL('../../../server/standards/beginnings/', import.meta.url)
const files = readdirSync(CATALOGUE).filter((name) => name.endsWith('.json'))
const read = (name: string): StandardBody =>
  StandardBody.parse(JSON.parse(readFileSync(new URL(name, CATALOGUE), 'utf8')))

test('the catalogue holds the three standards of the demo unit', () => {
  expect(files.toSorted()).toEqual(['rifle-standing.json', 'sword-saber-marching.json', 'sword-saber-standing.json'])
})

test('the standing manual is the one the scoring cases were made with, byte for byte', () => {
  const case_ = readFileSync(new URL('../../cases/standard-standing.json', import.meta.url))
  expect(readFileSync(new URL('sword-saber-standing.json', CATALOGUE)).equals(case_)).toBe(true)
})

describe.each(files)('%s', (name) => {
  test('is named after its code and has no problem', () => {
    expect(read(name).code).toBe(name.replace('.json', ''))
    expect(findStandardProblems(read(name)).map((problem) => `${name}: ${problem}`)).toEqual([])
  })

  test('is in force from 2023 and scored two of three, at 80 percent', () => {
    expect(read(name)).toMatchObject({
      version: 1,
      effectiveFrom: '2023-01-01',
      equivalentToPrevious: true,
      rule: { trials: 3, needed: 2, percent: '80' },
    })
    expect(read(name).majors.map((major) => major.code)).toEqual(['uniform', 'composure'])
  })
})

// Sources: restatements of TC 3-21.5 (May 2021). Steps and cadence: paragraphs 4-16 to 4-18 in a cadet battalion's
// manual (sites.google.com/ccs-student.org/tiger-battalion-let-manual); 30-inch step measured heel to heel and
// 180 steps a minute also at armyleadership.blogspot.com/2014/04; parade rest about 10 inches:
// sites.google.com/view/tjhsarmyjrotc.
test.each([
  ['sword-saber-marching.json', 'step-length', '30', 'in'],
  ['sword-saber-marching.json', 'half-step-length', '15', 'in'],
  ['sword-saber-marching.json', 'quick-cadence', '120', 'steps/min'],
  ['sword-saber-marching.json', 'double-cadence', '180', 'steps/min'],
  ['rifle-standing.json', 'feet-gap', '10', 'in'],
])('%s: %s aims at the published %s %s', (name, code, target, unit) => {
  const gauge = read(name).gauges.find((one) => one.code === code)
  expect(gauge).toMatchObject({ target, unit, origin: expect.stringContaining('TC 3-21.5') })
})

test.each([
  ['sword-saber-marching.json', 12],
  ['rifle-standing.json', 14],
  ['sword-saber-standing.json', 13],
])('%s has %i minor measures', (name, count) => {
  expect(read(name).minors).toHaveLength(count)
})

test.each(['sword-saber-marching.json', 'rifle-standing.json'])(
  '%s calls a measure three times running, or turn about with its pair',
  (name) => {
    const { calls, minors } = read(name)
    for (const { code } of minors) {
      const places = calls.flatMap((call, index) => (call.measure === code ? [index] : []))
      const gaps = places.slice(1).map((place, index) => place - places[index]!)
      expect(['1 1', '2 2'], `calls of ${code}`).toContain(gaps.join(' '))
    }
  },
)

describe('the check of a standard sees', () => {
  const broken = (change: (standard: StandardBody) => void): string[] => {
    const standard = read('sword-saber-marching.json')
    change(standard)
    return findStandardProblems(standard)
  }
  const minor = (standard: StandardBody, code: string) => standard.minors.find((one) => one.code === code)!

  test('a measure, a gauge and a fault that come twice', () => {
    expect(broken((standard) => standard.majors.push({ ...standard.majors[0]!, code: 'mark-time' }))).toEqual([
      'measures: "mark-time" comes twice',
    ])
    expect(broken((standard) => standard.gauges.push(standard.gauges[0]!))).toEqual([
      'gauges: "step-length" comes twice',
    ])
    expect(
      broken((standard) => minor(standard, 'half-step').faults.push({ code: 'change-late', title: 'Late' })),
    ).toEqual(['half-step: faults: "change-late" comes twice'])
  })

  test('a code that is not kebab-case', () => {
    expect(broken((standard) => minor(standard, 'half-step').faults.push({ code: 'Too_Late', title: 'Late' }))).toEqual(
      ['half-step: faults: "Too_Late" is not kebab-case'],
    )
  })

  test('a gauge that does not exist, is not used, or names a fault the measure lacks', () => {
    expect(broken((standard) => minor(standard, 'ready-front').gauges.push('no-such'))).toEqual([
      'ready-front: gauge "no-such" does not exist',
    ])
    expect(
      broken((standard) => {
        minor(standard, 'half-step').gauges = []
      }),
    ).toEqual(['gauge half-step-length: no measure uses it'])
    expect(broken((standard) => minor(standard, 'ready-front').gauges.push('foot-lift'))).toEqual([
      'ready-front: gauge "foot-lift" names the fault "foot-low", which the measure lacks',
      'ready-front: gauge "foot-lift" names the fault "foot-high", which the measure lacks',
    ])
  })

  test('a band upside down and an origin that is not said', () => {
    expect(
      broken((standard) => {
        standard.gauges[0]!.max = '29'
      }),
    ).toEqual(['gauge step-length: target outside its band, or the band is upside down'])
    expect(
      broken((standard) => {
        standard.gauges[0]!.origin = ' '
      }),
    ).toEqual(['gauge step-length: its origin is not said'])
  })

  test('a call left out, out of order, of no measure, or without its command', () => {
    expect(broken((standard) => standard.calls.pop())).toEqual([
      'calls: double-time has the trials 1, 2 instead of 1, 2, 3',
    ])
    expect(broken((standard) => standard.calls.reverse()).length).toBe(12)
    expect(broken((standard) => standard.calls.push({ ...standard.calls[0]!, measure: 'uniform' }))).toEqual([
      'calls: "uniform" is no minor measure',
    ])
    expect(
      broken((standard) => {
        delete standard.calls[0]!.preparatory
      }),
    ).toEqual(['calls: forward-halt 1 lacks its start or a command'])
    expect(
      broken((standard) => {
        standard.calls[0]!.execution = { sword: 'MARCH' }
      }),
    ).toEqual(['calls: forward-halt 1 has no command of execution for the saber'])
  })

  test('a check for a foreign arm or twice, too few faults, and no CEASE', () => {
    expect(
      broken((standard) => {
        minor(standard, 'ready-front').checks.execution[0]!.arm = 'rifle'
      }),
    ).toEqual(['ready-front: check "front" is for the arm "rifle", which is not one of the standard'])
    expect(
      broken((standard) =>
        minor(standard, 'ready-front').checks.execution.push(minor(standard, 'ready-front').checks.execution[0]!),
      ),
    ).toEqual(['ready-front: check "front" comes twice'])
    expect(
      broken((standard) => {
        minor(standard, 'ready-front').faults.length = 2
      }),
    ).toEqual(['ready-front: fewer than three faults'])
    expect(
      broken((standard) => {
        standard.cautions = []
      }),
    ).toEqual(['cautions: none says that CEASE stops all'])
  })
})
