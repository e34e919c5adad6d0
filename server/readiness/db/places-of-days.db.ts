import { Prisma } from '../../db/generated/client.ts'

// Which of some days a span holds, found without going through them: `days.list` is an array of ascending dates.

/** SQL of the place (from 1) of the first of some ascending days, `days.list`, that is not before a day; one behind them all where none is. */
export const firstFrom = (day: Prisma.Sql): Prisma.Sql => Prisma.sql`width_bucket(${day} - 1, days.list) + 1`

/** SQL of the place of the last of them that is not after a day; a span without an end goes on through all. */
export const lastThrough = (day: Prisma.Sql): Prisma.Sql =>
  Prisma.sql`COALESCE(width_bucket(${day}, days.list), cardinality(days.list))`
