import { addDays, type PlainDate } from '../../../server/domain/calendar/plain-date.ts'
import type { Establishment } from '../generate/establishment.ts'

/** What is asked of product and bare server alike. */
export interface Question {
  readonly name: string
  /** Path and query of the n-th time it is asked. */
  path(n: number): string
}

/** The questions about the first battalion, each time about another platoon or candidate of it. */
export function questionsAbout({ battalions, platoons, soldiers }: Establishment, today: PlainDate): Question[] {
  const unit = battalions[0]!
  const platoonOf = (n: number) => platoons[0]![n % platoons[0]!.length]!
  const candidates = soldiers.filter(({ battalion, role }) => battalion === 0 && role === 'candidate')
  const candidateOf = (n: number) => candidates[n % candidates.length]!.id
  const period = `from=${addDays(today, -365)}&to=${today}`
  return [
    { name: 'readiness of a platoon', path: (n) => `/api/readiness?unitId=${platoonOf(n)}` },
    { name: 'readiness of the unit', path: () => `/api/readiness?unitId=${unit}&limit=500` },
    { name: 'failing measures', path: () => `/api/findings/measures?unitId=${unit}` },
    { name: 'failing measures, 12 months', path: () => `/api/findings/measures?unitId=${unit}&${period}` },
    { name: 'sheets of a candidate', path: (n) => `/api/sheets?soldierId=${candidateOf(n)}&limit=20` },
    { name: 'status of a candidate', path: (n) => `/api/soldiers/${candidateOf(n)}/status` },
  ]
}
