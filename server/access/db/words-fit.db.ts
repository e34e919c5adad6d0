import { Prisma } from '../../db/generated/client.ts'

/** The words of a search, each as ILIKE takes it to be anywhere in a text. */
export const patternsOf = (search: string): string[] =>
  search
    .split(/[\s,]+/)
    .filter(Boolean)
    .map((word) => `%${word.replace(/[\\%_]/g, '\\$&')}%`)

/**
 * SQL, one a word of what is searched for: it is part of the roster number, the names or the grade of the soldier `s`. In:
 * SQL of their grade.
 */
export const wordsFit = (search: string, grade: Prisma.Sql): Prisma.Sql[] =>
  patternsOf(search).map(
    (pattern) => Prisma.sql`(s.roster_number ILIKE ${pattern} OR s.family_name ILIKE ${pattern}
      OR s.given_name ILIKE ${pattern} OR ${grade} ILIKE ${pattern})`,
  )
