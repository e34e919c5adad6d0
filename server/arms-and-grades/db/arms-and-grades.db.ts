import { unitInScope } from '../../access/db/scope.db.ts'
import type { Arm, Grade } from '../../contract/arms-and-grades/arms-and-grades.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'

export const readGrades = (tx: Transaction): Promise<Grade[]> =>
  tx.$queryRaw<Grade[]>`SELECT code, name, officer, confirmed FROM grade ORDER BY place, code`

export const readArms = (tx: Transaction): Promise<Arm[]> =>
  tx.$queryRaw<Arm[]>`SELECT code, name, confirmed FROM arm ORDER BY place, code`

/** Nobody else changes the lists until the transaction ends; who only adds to them need not wait. */
export async function lockLists(tx: Transaction): Promise<void> {
  await tx.$executeRaw`LOCK TABLE grade, arm IN SHARE ROW EXCLUSIVE MODE`
}

export async function replaceGrades(tx: Transaction, grades: readonly Grade[]): Promise<void> {
  await tx.grade.deleteMany()
  await tx.grade.createMany({ data: grades.map((grade, place) => ({ ...grade, place })) })
}

export async function replaceArms(tx: Transaction, arms: readonly Arm[]): Promise<void> {
  await tx.arm.deleteMany()
  await tx.arm.createMany({ data: arms.map((arm, place) => ({ ...arm, place })) })
}

/** Puts grades at the end of the list that are not in it. Out: those that were not. */
export async function addGrades(tx: Transaction, codes: readonly string[], confirmed: boolean): Promise<string[]> {
  const rows = await tx.$queryRaw<{ code: string }[]>`
    INSERT INTO grade (code, name, officer, place, confirmed)
    SELECT code, '', false, (SELECT COALESCE(max(place), -1) FROM grade) + n, ${confirmed}
    FROM unnest(${[...codes]}::text[]) WITH ORDINALITY AS x(code, n)
    WHERE NOT EXISTS (SELECT FROM grade g WHERE g.code = x.code)
    ON CONFLICT DO NOTHING RETURNING code`
  return rows.map(({ code }) => code)
}

/** Puts arms at the end of the list that are not in it. Out: those that were not. */
export async function addArms(tx: Transaction, codes: readonly string[], confirmed: boolean): Promise<string[]> {
  const rows = await tx.$queryRaw<{ code: string }[]>`
    INSERT INTO arm (code, name, place, confirmed)
    SELECT code, '', (SELECT COALESCE(max(place), -1) FROM arm) + n, ${confirmed}
    FROM unnest(${[...codes]}::text[]) WITH ORDINALITY AS x(code, n)
    WHERE NOT EXISTS (SELECT FROM arm a WHERE a.code = x.code)
    ON CONFLICT DO NOTHING RETURNING code`
  return rows.map(({ code }) => code)
}

/** Which of these grades something on record names: a soldier's past, terms of a certification, a post. */
export async function gradesInUse(tx: Transaction, codes: readonly string[]): Promise<string[]> {
  const rows = await tx.$queryRaw<{ code: string }[]>`
    SELECT code FROM unnest(${[...codes]}::text[]) AS x(code)
    WHERE EXISTS (SELECT FROM soldier_change WHERE grade = code)
      OR EXISTS (SELECT FROM certification_terms WHERE required_grades ? code)
      OR EXISTS (SELECT FROM post WHERE grades ? code)`
  return rows.map(({ code }) => code)
}

/** Which of these arms something on record names: a soldier's past, a standard, a certification, a post. */
export async function armsInUse(tx: Transaction, codes: readonly string[]): Promise<string[]> {
  const rows = await tx.$queryRaw<{ code: string }[]>`
    SELECT code FROM unnest(${[...codes]}::text[]) AS x(code)
    WHERE EXISTS (SELECT FROM soldier_change WHERE arms ? code)
      OR EXISTS (SELECT FROM standard_version WHERE definition -> 'arms' ? code)
      OR EXISTS (SELECT FROM certification WHERE code = ANY(certification.arms))
      OR EXISTS (SELECT FROM post WHERE arm = x.code)`
  return rows.map(({ code }) => code)
}

/** How many of the strength of a day have each grade and carry each arm. */
export async function countUse(
  tx: Transaction,
  scope: Scope,
  day: string,
): Promise<{ kind: 'grade' | 'arm'; code: string; soldiers: number }[]> {
  return tx.$queryRaw`
    WITH serving AS (
      SELECT grade, arms FROM soldier_period
      WHERE daterange(from_day, through_day, '[]') @> ${day}::date AND ${unitInScope(scope, Prisma.sql`unit_id`)})
    SELECT 'grade' AS kind, grade AS code, count(*)::int AS soldiers FROM serving GROUP BY grade
    UNION ALL SELECT 'arm', code, count(*)::int FROM serving, unnest(arms) AS code GROUP BY code
    ORDER BY kind, code`
}
