import { expect } from 'vitest'
import type { ReadinessPoint } from '../../../server/contract/readiness/readiness.ts'
import { addDays } from '../../../server/domain/calendar/plain-date.ts'
import { standingByTheLetter } from '../../unit/domain/certification/standing-by-the-letter.ts'
import type { TestApp } from '../build-test-app.ts'
import { termsOf } from './attempts-of.ts'
import { historyOf } from './history-of.ts'
import type { CertificationFact, Facts } from './read-facts.ts'
import { unitsAbove, whereOn } from './where-on.ts'

/** What a course of readiness is asked about; a certification or a unit left out: all of them. */
export interface TrendFilter {
  readonly from: string
  readonly to: string
  readonly certification?: string
  readonly unitId?: string
}

/** Expects that the course of readiness counts whom the rules, read by the letter, make required and certified. */
export async function expectTrend({ office }: TestApp, facts: Facts, filter: TrendFilter): Promise<void> {
  const query = new URLSearchParams({ ...filter }).toString()
  const { items } = await office.get<{ items: ReadinessPoint[] }>(`/api/readiness/trend?${query}`)
  expect(sorted(items), `trend ${query}`).toEqual(trendByTheLetter(facts, filter))
}

/** The points of a course in the order of day, certification and unit: everybody is asked about on every day. */
export function trendByTheLetter(facts: Facts, { from, to, certification: only, unitId: top }: TrendFilter) {
  const points = new Map<string, ReadinessPoint>()
  const certifications = facts.certifications.filter(({ code }) => only === undefined || code === only)
  for (const asOf of daysOf(from, to)) {
    for (const soldier of facts.soldiers.keys()) {
      const { unitId: own } = whereOn(facts, soldier, asOf)
      if (own === null) continue
      const lineage = unitsAbove(facts, own)
      const at = top === undefined ? lineage.length - 1 : lineage.indexOf(top)
      if (at < 0) continue
      const unitId = lineage[at - 1] ?? null
      for (const certification of certifications.filter((one) => isRequired(facts, one, soldier, asOf))) {
        const key = `${asOf} ${certification.code} ${unitId}`
        const point = points.get(key) ?? { asOf, unitId, certification: certification.code, required: 0, certified: 0 }
        const history = historyOf(facts, soldier, certification)
        const { status } = standingByTheLetter({ certification, breaks: facts.breaks, history }, asOf)
        const isCertified = (status as { status: string }).status === 'certified'
        points.set(key, {
          ...point,
          required: point.required + 1,
          certified: point.certified + (isCertified ? 1 : 0),
        })
      }
    }
  }
  return sorted([...points.values()])
}

const keyOf = ({ asOf, certification, unitId }: ReadinessPoint) => `${asOf} ${certification} ${unitId ?? ''}`
const sorted = (points: readonly ReadinessPoint[]) => [...points].sort((a, b) => (keyOf(a) < keyOf(b) ? -1 : 1))

/** Each last day of a month, and the last day of all. */
function daysOf(from: string, to: string): string[] {
  const days: string[] = []
  for (let day = from; day <= to; day = addDays(day, 1)) {
    if (day === to || addDays(day, 1).endsWith('-01')) days.push(day)
  }
  return days
}

/** Fits the soldier that day, and is required of their grade and unit by the terms of the day. */
function isRequired(facts: Facts, certification: CertificationFact, soldierId: string, day: string): boolean {
  const { unitId, grade, arms } = whereOn(facts, soldierId, day)
  const { requiredGrades, requiredUnits } = termsOf(certification, day)
  return (
    unitId !== null &&
    (certification.arms.length === 0 || certification.arms.some((arm) => arms.includes(arm))) &&
    (requiredGrades === null || requiredGrades.includes(grade!)) &&
    (requiredUnits === null || unitsAbove(facts, unitId).some((one) => requiredUnits.includes(one)))
  )
}
