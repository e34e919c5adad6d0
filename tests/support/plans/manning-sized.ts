import type { SoldierFacts } from '../../../server/domain/manning/types.ts'
import type { CeremonyToMan, ManningFacts } from '../../../server/domain/plans/manning/manning-problem.ts'
import { seeded } from './random-problem.ts'

interface Size {
  readonly ceremonies: number
  readonly posts: number
  readonly soldiers: number
}

const HOUR = 3_600_000
const GRADES = ['PFC', 'SPC', 'CPL', 'SGT']

/**
 * Ceremonies as a unit has them: of each a third of the posts for one of two certifications, in ranks of ten, for any grade, junior
 * ones or sergeants; three of four soldiers certified, a tenth absent, every fifth ceremony overlapping the one before.
 */
export function manningSized(seed: number, { ceremonies, posts, soldiers }: Size): ManningFacts {
  const next = seeded(seed)
  const below = (count: number) => Math.floor(next() * count)
  const people = Array.from({ length: soldiers }, (_, at) => ({
    id: `soldier ${String(at).padStart(4, '0')}`,
    stood: below(8),
    heightCm: next() < 0.9 ? 165 + below(30) : null,
  }))
  const known = new Map(
    people.map(({ id, heightCm }) => {
      const facts: SoldierFacts = {
        grade: GRADES[below(GRADES.length)]!,
        arms: ['sword', 'rifle'],
        heightCm,
        status: next() < 0.75 ? 'certified' : 'lapsed',
        validThrough: '2027-12-31',
        missing: [],
        certifiedAt: null,
        absences: next() < 0.1 ? [{ kind: 'leave', from: '2026-12-01', through: '2026-12-12' }] : [],
        duties: [],
      }
      return [id, facts] as const
    }),
  )
  const ceremony = (nth: number): CeremonyToMan => {
    const day = `2026-12-${String(nth + 1).padStart(2, '0')}`
    const from = Date.parse(`${day}T10:00:00Z`) - (nth % 5 === 4 ? 23 * HOUR : 0)
    return {
      id: `ceremony ${nth}`,
      occasion: { reportsAt: from, times: [{ at: 'ceremony', day, from, to: from + 2 * HOUR }] },
      posts: Array.from({ length: posts }, (_, at) => ({
        id: `post ${nth} ${at}`,
        title: `Post ${at}`,
        row: 1 + Math.floor(at / 10),
        certification: at % 3 === 0 ? 'sword' : 'rifle',
        soldierId: null,
        arm: null,
        grades: [null, ['PFC', 'SPC', 'CPL'], ['SGT']][at % 7 === 0 ? 2 : at % 2]!,
        minHeightCm: null,
        maxHeightCm: null,
      })),
      alternates: [],
      alternatesWanted: Math.ceil(posts / 5),
    }
  }
  return {
    ceremonies: Array.from({ length: ceremonies }, (_, nth) => ceremony(nth)),
    soldiers: people,
    factsOf: (_, id) => known.get(id) ?? null,
    letGo: false,
  }
}
