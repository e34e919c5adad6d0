import { Prisma } from '../../db/generated/client.ts'
import { firstFrom } from './places-of-days.db.ts'

/**
 * CTEs over `days.list` (ascending days, of which those before the last end a month) that end with `changes`: by unit,
 * certification and place among the days what of the named columns changes by that day and after the one before. A sum over
 * the places up to one is the figure of that day.
 * In: SQL of a query for the ids of the units; the last of the days; columns of `readiness_tally`.
 */
export function readinessChanges(units: Prisma.Sql, lastDay: string, columns: readonly string[]): Prisma.Sql {
  const last = Prisma.sql`${lastDay}::date`
  const month = Prisma.sql`date_trunc('month', ${last})::date`
  const of = (alias: string) => Prisma.raw(columns.map((column) => `${alias}.${column}`).join(', '))
  const sums = Prisma.raw(columns.map((column) => `sum(${column}) AS ${column}`).join(', '))
  return Prisma.sql`
    asked AS MATERIALIZED (${units}),
    changes AS MATERIALIZED (
      SELECT unit_id, certification_id, ${firstFrom(Prisma.sql`day`)} AS place, ${sums}
      FROM (
        SELECT t.unit_id, t.certification_id, t.start AS day, ${of('t')} FROM asked
        JOIN readiness_tally t ON t.unit_id = asked.id AND t.grain = 'month' AND t.start < ${month}
        UNION ALL
        SELECT t.unit_id, t.certification_id, t.start, ${of('t')} FROM asked
        JOIN readiness_tally t ON t.unit_id = asked.id AND t.grain = 'day' AND t.start BETWEEN ${month} AND ${last}
        UNION ALL
        SELECT asked.id, c.certification_id, c.day, ${of('c')}
        FROM readiness_change c JOIN unit u ON u.id = c.unit_id JOIN asked ON asked.id = ANY(u.lineage)
        WHERE c.day <= ${last}) each
      CROSS JOIN days GROUP BY 1, 2, 3)`
}
