import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import { type FindingsFilter, isAttemptOf } from './findings-filter.db.ts'

export interface GradedSheetRow {
  readonly versionId: string
  readonly graderId: string
  readonly marks: string
}

/** Attempts of a filter that two or more graded, with marks: all their counted sheets, the first grader's first. */
export async function readGradedTwice(tx: Transaction, filter: FindingsFilter): Promise<GradedSheetRow[][]> {
  const sheet = (s: Prisma.Sql) =>
    Prisma.sql`jsonb_build_object('versionId', ${s}.standard_version_id, 'graderId', ${s}.grader_id, 'marks', ${s}.marks)`
  const rows = await tx.$queryRaw<{ sheets: GradedSheetRow[] }[]>`
    SELECT jsonb_build_array(${sheet(Prisma.sql`f`)}) || jsonb_agg(${sheet(Prisma.sql`s`)} ORDER BY s.finished_at, s.id) AS sheets
    FROM sheet s JOIN sheet f ON f.id = s.second_of
    WHERE s.second_of IS NOT NULL AND s.purpose = 'test' AND s.state = 'counted' AND s.outcome <> 'VOID'
      AND s.candidate_id = f.candidate_id AND s.standard_id = f.standard_id AND s.grader_id <> f.grader_id
      AND s.marks <> '' AND f.marks <> '' AND ${isAttemptOf(filter, Prisma.sql`f`)}
    GROUP BY f.id ORDER BY f.id`
  return rows.map(({ sheets }) => sheets)
}
