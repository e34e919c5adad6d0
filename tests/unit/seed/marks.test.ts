import { describe, expect, test } from 'vitest'
import { readStandard } from '../../../seed/catalogue/read-standard.ts'
import { withoutDecided } from '../../../seed/generate/marks/cut-short.ts'
import { readingInside, readingOutside } from '../../../seed/generate/marks/draw-reading.ts'
import { observe } from '../../../seed/generate/marks/observe.ts'
import { perform } from '../../../seed/generate/marks/perform.ts'
import { drawCourse, marksOf, toScored } from '../../../seed/generate/marks/test-course.ts'
import { createRandom, type Random } from '../../../seed/generate/random.ts'
import type { StandardBody } from '../../../server/contract/standards/standards.ts'
import { findMalformed } from '../../../server/domain/scoring/find-malformed.ts'
import { scoreSheet } from '../../../server/domain/scoring/score-sheet.ts'

const standards = ['sword-saber-standing', 'sword-saber-marching', 'rifle-standing'].map(readStandard)
const PERFECT_EYE = { overlooks: 0, imagines: 0 }

const seenWith = (random: Random, standard: StandardBody, chance: number) => {
  const performance = perform(random, standard, () => chance, new Map())
  return { performance, minors: observe(random, standard, performance, PERFECT_EYE) }
}

test.each(standards.flatMap(({ gauges }) => gauges))(
  'readings of $code lie inside or outside its band as asked',
  (gauge) => {
    const random = createRandom(3)
    const banded = { code: gauge.code, unit: gauge.unit, min: gauge.min!, max: gauge.max! }
    const [min, max] = [Number(gauge.min), Number(gauge.max)]
    const inside = Array.from({ length: 500 }, () => Number(readingInside(random, banded)))
    const outside = Array.from({ length: 500 }, () => Number(readingOutside(random, banded)))
    expect(inside.every((value) => value >= min && value <= max)).toBe(true)
    expect(outside.every((value) => value >= 0 && (value < min || value > max))).toBe(true)
    expect(outside.some((value) => value < min) && outside.some((value) => value > max)).toBe(true)
  },
)

describe.each(standards)('$code', (standard) => {
  const scored = toScored(standard)

  test('whoever does everything right is GO in everything; whoever does nothing right in nothing', () => {
    const random = createRandom(1)
    for (const [chance, outcome] of [
      [1, 'GO'],
      [0, 'NO-GO'],
    ] as const) {
      // A reading may be set aside now and then, so that a trial counts after all: no more than one measure in ten.
      const { minors } = seenWith(random, standard, chance)
      const score = scoreSheet(scored, marksOf(standard, { kind: 'completed' }, minors))
      expect(score.outcome).toBe(outcome)
      expect(outcome === 'GO' ? score.noGo : score.go).toBeLessThanOrEqual(outcome === 'GO' ? 0 : 1)
    }
  })

  test('marks, faults and readings agree: a right trial has neither fault nor reading outside, a wrong one has', () => {
    const random = createRandom(2)
    for (let run = 0; run < 50; run++) {
      for (const minor of seenWith(random, standard, 0.6).minors) {
        minor.trials.forEach((mark, index) => {
          const trial = index + 1
          const isOutside = ({ gauge, value }: { gauge: string; value: string }) => {
            const { min, max } = standard.gauges.find(({ code }) => code === gauge)!
            return Number(value) < Number(min) || Number(value) > Number(max)
          }
          const outside = minor.readings.filter((one) => one.trial === trial && isOutside(one) && !one.override)
          const faults = minor.faults.filter((one) => one.trial === trial)
          if (mark === 'incorrect') expect(outside.length + faults.length).toBeGreaterThan(0)
          else expect(faults).toEqual([])
        })
      }
    }
  })

  test('every course gives a sheet that is well formed and ends as the course says', () => {
    const random = createRandom(4)
    const endings = new Set<string>()
    for (let run = 0; run < 600; run++) {
      const course = drawCourse(random, standard, run % 20 === 0)
      const { minors } = seenWith(random, standard, random.next())
      const marks = marksOf(standard, course, run % 2 ? withoutDecided(standard, minors) : minors)
      expect(findMalformed(scored, marks)).toEqual([])
      expect(scoreSheet(scored, marks).ending).toBe(course.kind)
      endings.add(course.kind)
    }
    expect([...endings].toSorted()).toEqual(['completed', 'stopped', 'void'])
  })
})
