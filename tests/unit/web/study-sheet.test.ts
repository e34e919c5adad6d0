import fc from 'fast-check'
import { createElement } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import { describe, expect, it } from 'vitest'
import type { StudySheet } from '../../../server/contract/coaching/study.ts'
import { StandardBody } from '../../../server/contract/standards/standards.ts'
import { studyFaults } from '../../../server/domain/coaching/study-faults.ts'
import { drawAngle, drawStretch, PICTURE } from '../../../web/charts/gauge-drawing.ts'
import { gaugeKind } from '../../../web/domain/standards/gauge-kind.ts'
import { runOfTest } from '../../../web/domain/standards/run-of-test.ts'
import { formatRun, formatStudy } from '../../../web/features/study/format-study.ts'
import { StudyPaper } from '../../../web/features/study/study-paper.tsx'

const code = fc.stringMatching(/^[a-z][a-z0-9-]{0,8}$/)
const words = fc.stringMatching(/^[A-Za-z][a-z ]{0,20}[a-z]$/)
const decimal = fc.integer({ min: -9999, max: 9999 }).map((n) => (n / 10).toFixed(1))
const faults = fc.uniqueArray(fc.record({ code, title: words }), { selector: (each) => each.code, maxLength: 4 })
const check = fc.record({ code, title: words })

/** Any standard that the server would take. */
const standards = fc
  .record({
    gauges: fc.uniqueArray(
      fc.record({
        code,
        title: words,
        unit: fc.constantFrom('deg', 'in', 'cm', 'steps a minute', '°', 's', ''),
        min: fc.option(decimal),
        max: fc.option(decimal),
        target: fc.option(decimal),
      }),
      { selector: (each) => each.code, maxLength: 5 },
    ),
    majors: fc.uniqueArray(fc.record({ code, title: words, criteria: fc.array(words, { maxLength: 2 }), faults }), {
      selector: (each) => each.code,
      maxLength: 3,
    }),
    minors: fc.uniqueArray(
      fc.record({
        code,
        title: words,
        checks: fc.record({
          preparatory: fc.array(check, { maxLength: 2 }),
          execution: fc.array(check, { maxLength: 2 }),
        }),
        faults,
      }),
      { selector: (each) => each.code, minLength: 1, maxLength: 8 },
    ),
    trials: fc.integer({ min: 1, max: 4 }),
    hasCalls: fc.boolean(),
  })
  .map(({ gauges, minors, majors, trials, hasCalls }) =>
    StandardBody.parse({
      code: 'own',
      title: 'Our own test',
      effectiveFrom: '2026-01-01',
      rule: { trials, needed: 1, percent: '80' },
      gauges,
      majors,
      minors: minors.map((minor, i) => ({
        ...minor,
        gauges: gauges.filter((_, g) => g % minors.length === i).map((g) => g.code),
      })),
      calls: hasCalls
        ? minors.flatMap(({ code: measure }) => Array.from({ length: trials }, (_, t) => ({ measure, trial: t + 1 })))
        : [],
    }),
  )

const sheetOf = (body: StandardBody, own: number): StudySheet => ({
  asOf: '2026-11-30',
  standard: { ...body, id: '00000000-0000-4000-8000-000000000001', publishedAt: '2026-01-01T00:00:00Z' },
  candidate: own > 0 ? { id: '00000000-0000-4000-8000-000000000002', name: 'SGT Ashford, Kim', tests: 2 } : null,
  measures: [
    ...body.majors.map((one) => ({ ...one, major: true })),
    ...body.minors.map((one) => ({ ...one, major: false })),
  ].map((one) => ({
    measure: one.code,
    major: one.major,
    trials: 120,
    own: { tested: own > 0 ? 2 : 0, noGo: own > 0 ? 1 : 0 },
    faults: one.faults.map(({ code: fault }, i) => ({ fault, unit: 9 - i, own })),
  })),
})

describe('a study sheet', () => {
  it('is made of any valid standard: every measure, check, fault and tolerance is on it, and every picture within its frame', () => {
    fc.assert(
      fc.property(standards, fc.integer({ min: 0, max: 2 }), (body, own) => {
        const sheet = sheetOf(body, own)
        const html = renderToStaticMarkup(createElement(StudyPaper, { sheet }))
        for (const { title, checks } of body.minors) {
          expect(html).toContain(title)
          for (const one of [...checks.preparatory, ...checks.execution]) expect(html).toContain(one.title)
        }
        for (const { title } of body.majors) expect(html).toContain(title)
        expect(html).not.toMatch(/NaN|undefined|Infinity/)
        const bounded = body.gauges.filter(({ min, max }) => min !== null || max !== null)
        expect(html.match(/<svg/g)?.length ?? 0).toBe(bounded.length)
        expect(formatStudy(sheet)).not.toMatch(/undefined/)
      }),
      { numRuns: 150 },
    )
  })

  it('says the order of calls in short, and loses none', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom('a', 'b', 'c'), { maxLength: 40 }), (calls) => {
        const written = runOfTest(calls).flatMap(({ measures, times }) =>
          Array.from({ length: times }, () => measures).flat(),
        )
        expect(written).toEqual(calls)
      }),
    )
    expect(runOfTest([...'drdraaacocoo'])).toEqual([
      { measures: ['d', 'r'], times: 2 },
      { measures: ['a'], times: 3 },
      { measures: ['c', 'o'], times: 2 },
      { measures: ['o'], times: 1 },
    ])
  })

  it('calls each measure its trials running where a standard says no order', () => {
    const body = StandardBody.parse({
      code: 'x',
      title: 'X',
      effectiveFrom: '2026-01-01',
      minors: [{ code: 'a', title: 'Halt' }],
    })
    expect(formatRun(sheetOf(body, 0).standard)).toEqual(['Halt, three times'])
  })
})

describe('the faults of a measure', () => {
  const measure = { code: 'draw', faults: [{ code: 'x' }, { code: 'y' }, { code: 'z' }] }
  it('come in order of how often the unit is marked for them, own ones breaking a tie', () => {
    const unit = [
      { measure: 'draw', fault: 'z', count: 7 },
      { measure: 'halt', fault: 'x', count: 90 },
    ]
    const own = [{ measure: 'draw', fault: 'y', count: 2 }]
    expect(studyFaults(measure, unit, own)).toEqual([
      { fault: 'z', unit: 7, own: 0 },
      { fault: 'y', unit: 0, own: 2 },
      { fault: 'x', unit: 0, own: 0 },
    ])
  })
})

describe('a tolerance', () => {
  it('of an angle is drawn as that angle', () => {
    const { origin, rays, target } = drawAngle({ min: 40, max: 50, target: 45 })
    const angleOf = (x: number, y: number) => (Math.atan2(origin.y - y, x - origin.x) * 180) / Math.PI
    expect(rays.map(({ x, y }) => Math.round(angleOf(x, y)))).toEqual([40, 50])
    expect(angleOf(target!.x, target!.y)).toBeCloseTo(45, 0)
  })

  it('of a length is drawn to scale from the ground', () => {
    const { marks, band } = drawStretch({ min: 4, max: 6, target: null }, 60, true)
    const [ground, min, max] = marks.map(({ at }) => at)
    expect(ground).toBe(0)
    expect(max! / min!).toBeCloseTo(1.5, 2)
    expect([band.from, band.to]).toEqual([min, max])
  })

  it('stays within its picture, whatever its limits', () => {
    const limit = fc.option(fc.integer({ min: -9999, max: 9999 }))
    fc.assert(
      fc.property(limit, limit, limit, fc.boolean(), (min, max, target, fromZero) => {
        const { band, marks } = drawStretch({ min, max, target }, 100, fromZero)
        for (const at of [band.from, band.to, ...marks.map((one) => one.at)]) {
          expect(at).toBeGreaterThanOrEqual(0)
          expect(at).toBeLessThanOrEqual(100)
        }
        const angle = drawAngle({ min, max, target })
        for (const { x, y } of angle.rays) {
          expect(x >= 0 && x <= PICTURE.width && y >= 0 && y <= PICTURE.height).toBe(true)
        }
      }),
    )
  })

  it.each([
    ['deg', 'Turn of the head', 'angle'],
    ['in', 'Height of the tip above the ground', 'height'],
    ['cm', 'Gap between the heels', 'distance'],
    ['steps a minute', 'Cadence', 'scale'],
  ])('in %s of "%s" is drawn as %s', (unit, title, kind) => expect(gaugeKind({ unit, title })).toBe(kind))
})
