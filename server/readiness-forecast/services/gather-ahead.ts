import { findChancesAhead } from '../../ability/services/find-chances-ahead.ts'
import type { Context } from '../../context/context.ts'
import type { Catalogue, StoredCertification } from '../../db/catalogue.db.ts'
import type { ChancesAhead } from '../../domain/ability/chances-ahead.ts'
import type { Scope } from '../../domain/access/scope.ts'
import type { Break } from '../../domain/certification/types.ts'
import { type AheadFilter, type AheadRows, readSoldiersAhead, type TestRow } from '../db/soldiers-ahead.db.ts'

/** All that a forecast rests on. */
export interface Gathered {
  readonly filter: AheadFilter
  readonly certification: StoredCertification
  readonly breaks: readonly Break[]
  readonly rows: AheadRows
  readonly chancesOf: (soldierId: string, test: Pick<TestRow, 'id' | 'standard'>) => ChancesAhead
  /** The version of a standard in force on a day. */
  readonly versionOn: (standard: string, day: string) => number
}

/** Tests of one soldier that are not on days of an absence. */
export const attended = ({ tests, absences }: Pick<AheadRows['soldiers'][number], 'tests' | 'absences'>): TestRow[] =>
  tests.filter(({ day }) => !absences.some(({ from, through }) => from <= day && (through === null || day <= through)))

/** Nobody passes a test of a standard that has no version. */
const NO_CHANCE: ChancesAhead = { weights: [1], pass: [[0]], basis: 'baseline' }

/**
 * Gathers what a forecast of a day to come rests on. With `more`, the chances of everybody who is not certified that day are worked out
 * as well, for so many tests in each standard beside those booked.
 */
export async function gatherAhead(
  context: Context,
  scope: Scope,
  certification: StoredCertification,
  { unitId, on, asOf }: { unitId: string | undefined; on: string; asOf: string },
  more = 0,
): Promise<Gathered> {
  const filter = { unitId, on, asOf, certification: certification.code, certificationId: certification.id }
  const [rows, { standards, judging }] = await Promise.all([
    readSoldiersAhead(context.db, scope, filter, { all: more > 0 }),
    context.catalogue.current(context.db),
  ])
  const asked = rows.soldiers.flatMap((soldier) =>
    certification.standards.map((standard) => {
      const booked = attended(soldier).filter((test) => test.standard === standard).length
      return { candidateId: soldier.soldierId, standard, tests: booked + more }
    }),
  )
  const found = await findChancesAhead(
    context,
    asked.filter(({ tests }) => tests > 0),
    asOf,
  )
  return {
    filter,
    certification,
    breaks: judging.breaks,
    rows,
    chancesOf: (soldierId, { standard }) => found(soldierId, standard) ?? NO_CHANCE,
    versionOn: versionsIn(standards),
  }
}

/** The version of a standard in force on a day. */
export const versionsIn =
  (standards: Catalogue['standards']): Gathered['versionOn'] =>
  (standard, day) =>
    (standards.get(standard) ?? [])
      .filter(({ publishedAt, effectiveFrom }) => publishedAt !== null && effectiveFrom <= day)
      .at(-1)?.version ?? 1
