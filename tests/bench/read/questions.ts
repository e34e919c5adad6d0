import { isDeepStrictEqual } from 'node:util'
import { addDays, type PlainDate } from '../../../server/domain/calendar/plain-date.ts'
import type { FilledRecord } from '../generate/fill-database.ts'
import { sameMeasureCounts } from './same-measure-counts.ts'

/** What is asked of product and bare server alike. */
export interface Question {
  readonly name: string
  /** Path and query of the n-th time it is asked. */
  path(n: number): string
  /** Whether the product's answer says what the hand-written one says. */
  isSame(product: unknown, byHand: unknown): boolean
}

/** The questions about the first battalion, each time about another platoon or candidate of it. */
export function questionsAbout({ establishment, grounds }: FilledRecord, today: PlainDate): Question[] {
  const { battalions, platoons, soldiers } = establishment
  const unit = battalions[0]!
  const platoonOf = (n: number) => platoons[0]![n % platoons[0]!.length]!
  const candidates = soldiers.filter(({ battalion, role }) => battalion === 0 && role === 'candidate')
  const candidateOf = (n: number) => candidates[n % candidates.length]!.id
  const period = `from=${addDays(today, -365)}&to=${today}`
  const whole = (name: string, path: Question['path']) => ({ name, path, isSame: isDeepStrictEqual })
  const counts = (name: string, path: string): Question => ({
    name,
    path: () => path,
    isSame: (product, byHand) => sameMeasureCounts(grounds[0]!.standard, product, byHand),
  })
  return [
    whole('readiness of a platoon', (n) => `/api/readiness?unitId=${platoonOf(n)}`),
    whole('readiness of the unit', () => `/api/readiness?unitId=${unit}&limit=500`),
    counts('failing measures', `/api/findings/measures?unitId=${unit}`),
    counts('failing measures, 12 months', `/api/findings/measures?unitId=${unit}&${period}`),
    whole('sheets of a candidate', (n) => `/api/sheets?soldierId=${candidateOf(n)}&limit=20`),
    whole('status of a candidate', (n) => `/api/soldiers/${candidateOf(n)}/status`),
  ]
}
