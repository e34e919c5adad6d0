import { Prisma } from '../../db/generated/client.ts'

/** SQL that fills numbers in a text up with noughts, so that "2nd" comes before "10th". */
const byNumber = (text: Prisma.Sql): Prisma.Sql =>
  Prisma.sql`regexp_replace(regexp_replace(${text}, '(\\d+)', '000000\\1', 'g'), '0*(\\d{6})', '\\1', 'g')`

/** SQL of a text by which units stand as in the tree: each before those below it, sisters in the unit's own order. In: an alias. */
export function unitOrder(alias: string): Prisma.Sql {
  const unit = Prisma.raw(alias)
  return Prisma.sql`(SELECT string_agg(lpad(above.place::text, 6, '0') || ${byNumber(Prisma.sql`above.name`)}, ' '
      ORDER BY cardinality(above.lineage)) FROM unit above WHERE above.id = ANY(${unit}.lineage))`
}
