import { describe, expect, test } from 'vitest'
import { toScored } from '../../../seed/generate/marks/test-course.ts'
import type { PlannedEvent } from '../../../seed/generate/plan.ts'
import { DEMO_SEED, generateScenario } from '../../../seed/generate/scenario.ts'
import { StandardBody } from '../../../server/contract/standards/standards.ts'
import { instantInZone } from '../../../server/domain/calendar/zoned-instant.ts'
import { findMalformed } from '../../../server/domain/scoring/find-malformed.ts'
import { scoreSheet } from '../../../server/domain/scoring/score-sheet.ts'
import { checkDefinition } from '../../../server/domain/standards/check-definition.ts'

const DAYS = ['2026-11-25', '2027-01-05', '2028-02-29']

/** Events of a kind, in order. */
const ofKind = <Kind extends PlannedEvent['kind']>(events: readonly PlannedEvent[], kind: Kind) =>
  events.filter((event): event is Extract<PlannedEvent, { kind: Kind }> => event.kind === kind)

const between = (count: number, least: number, most: number) => {
  expect(count).toBeGreaterThanOrEqual(least)
  expect(count).toBeLessThanOrEqual(most)
}

test('the same seed and day give the same scenario, another seed or day another one', () => {
  const generate = (seed: number, today: string) => JSON.stringify(generateScenario({ seed, today }))
  const one = generate(1, '2026-11-25')
  expect(generate(1, '2026-11-25') === one).toBe(true)
  expect(generate(2, '2026-11-25') === one).toBe(false)
  expect(generate(1, '2026-11-26') === one).toBe(false)
})

describe.each(DAYS)('the scenario of %s', (today) => {
  const { events } = generateScenario({ seed: DEMO_SEED, today })
  const sheets = ofKind(events, 'sheet')
  const tests = sheets.filter(({ body }) => body.purpose === 'test' && body.secondOf === null && !body.outcomeOnly)
  const standards = new Map(ofKind(events, 'standard').map(({ body }) => [`${body.code} ${body.version}`, body]))
  const standardOf = ({ standard, standardVersion }: (typeof sheets)[number]['body']) =>
    standards.get(`${standard} ${standardVersion}`)!

  test('lies in the eighteen months before, in order; a sheet comes in after its test', () => {
    const times = events.map(({ at }) => at)
    expect(times).toEqual(times.toSorted((one, other) => one - other))
    expect(times.at(-1)!).toBeLessThan(instantInZone(today, 0, 'America/New_York'))
    for (const { at, body } of sheets) expect(Date.parse(body.finishedAt)).toBeLessThanOrEqual(at)
  })

  test('every sheet, amended ones too, is well formed and has an end', () => {
    for (const body of [
      ...sheets.map((one) => one.body),
      ...ofKind(events, 'amendment').map((one) => one.body.sheet),
    ]) {
      const scored = toScored(standardOf(body))
      expect(findMalformed(scored, body)).toEqual([])
      expect(scoreSheet(scored, body).ending).not.toBe('unfinished')
    }
  })

  test('holds about fifteen hundred tests and what goes with them', () => {
    between(tests.length, 1200, 1600)
    between(sheets.filter(({ body }) => body.purpose === 'practice').length, 60, 140)
    between(sheets.filter(({ body }) => body.secondOf !== null).length, 25, 65)
    between(sheets.filter(({ body }) => body.outcomeOnly !== null).length, 15, 70)
    between(tests.filter(({ body }) => body.void !== null).length, 15, 70)
    between(tests.filter(({ body }) => body.majors.some(({ mark }) => mark === 'NO-GO')).length, 30, 100)
    between(tests.filter(({ stands }) => stands === 'held').length, 5, 13)
    between(ofKind(events, 'amendment').length, 4, 25)
    between(ofKind(events, 'withdrawal').length, 2, 25)
    between(ofKind(events, 'review').length, 20, 110)
    between(ofKind(events, 'suspension').length, 9, 11)
    between(ofKind(events, 'lift').length, 6, 8)
    between(ofKind(events, 'ceremony').length, 12, 12)
    for (const event of ['award', 'sponsorship', 'appointment', 'decision', 'change', 'test-day'] as const) {
      expect(ofKind(events, event).length, event).toBeGreaterThan(10)
    }
  })

  test('stops some tests before the first call and some in the middle', () => {
    const noGos = tests.flatMap(({ body }) => body.majors.filter(({ mark }) => mark === 'NO-GO'))
    for (const { code, atCall } of noGos) expect(atCall! > 0, code).toBe(code === 'composure')
    expect(new Set(noGos.map(({ code }) => code))).toEqual(new Set(['uniform', 'composure']))
  })

  test('the measures that are meant to be hard fail most, and readings fall on both sides of their band', () => {
    const standing = tests.filter(({ body }) => body.standard === 'sword-saber-standing' && body.void === null)
    const noGos = new Map<string, number>()
    for (const { body } of standing) {
      for (const { code, outcome } of scoreSheet(toScored(standardOf(body)), body).minors) {
        if (outcome === 'NO-GO') noGos.set(code, (noGos.get(code) ?? 0) + 1)
      }
    }
    const hardest = [...noGos].toSorted(([, one], [, other]) => other - one).map(([code]) => code)
    expect(hardest.slice(0, 3).toSorted()).toEqual(['carry-order', 'eyes-right', 'present-from-order'])
    const heights = standing.flatMap(({ body }) =>
      body.minors.flatMap(({ readings }) => readings.flatMap((one) => (one.gauge === 'tip-height' ? one.value : []))),
    )
    between(heights.filter((value) => Number(value) < 4).length / heights.length, 0.02, 0.25)
    between(heights.filter((value) => Number(value) > 6).length / heights.length, 0.01, 0.2)
  })

  test('the second version of a standard is one the API takes, published before it is in force', () => {
    const [marching, ...others] = ofKind(events, 'standard').filter(({ body }) => body.version > 1)
    expect(others).toEqual([])
    expect(StandardBody.parse(marching!.body)).toEqual(marching!.body)
    expect(checkDefinition(marching!.body)).toEqual([])
    expect(new Date(marching!.at).toISOString() < marching!.body.effectiveFrom).toBe(true)
  })
})
