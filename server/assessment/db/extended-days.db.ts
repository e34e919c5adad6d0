import { Prisma } from '../../db/generated/client.ts'

/** By how many days in all a carried-over award (its alias in SQL) was extended; an award made by tests holds them already. */
export const extendedDaysOf = (award: string): Prisma.Sql => Prisma.sql`
  (SELECT COALESCE(sum(ext.days), 0)::int FROM award_extension ext
    WHERE ext.carried_award_id = ${Prisma.raw(award)}.id AND ext.taken_back_at IS NULL)`
