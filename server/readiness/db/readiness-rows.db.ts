import { unitOrder } from '../../access/db/unit-order.db.ts'
import type { ReadinessSort } from '../../contract/standards/certifications.ts'
import { Prisma } from '../../db/generated/client.ts'
import { joinMovedDue } from './due-moves.db.ts'

/** The states in the order in which a platoon is drawn. */
const IN_ORDER = ['certified', 'awaiting approval', 'part way', 'retest due', 'lapsed', 'suspended', 'no test yet']

/** After every date there is: who has none comes last. */
const NO_DAY = '9999-12-31'

/** SQL of what the rows of `shown`, joined to `soldier s` and `unit u`, are sorted by: a text. */
export const sortKey = (sort: ReadinessSort): Prisma.Sql => {
  switch (sort.replace('-', '')) {
    case 'state':
      return Prisma.sql`array_position(${IN_ORDER}, status)::text`
    case 'name':
      return Prisma.sql`s.family_name || ', ' || s.given_name`
    case 'unit':
      return unitOrder('u')
    case 'valid':
      return Prisma.sql`COALESCE(valid_through::text, ${NO_DAY})`
    default:
      return Prisma.sql`''`
  }
}

/** SQL: who can stand; who cannot, of those who must hold the certification or have begun; or all. */
export const standsAs = (standing: 'can' | 'cannot' | undefined): Prisma.Sql => {
  if (standing === 'can') return Prisma.sql`status = 'certified'`
  if (standing === 'cannot') return Prisma.sql`status <> 'certified' AND (required OR status <> 'no test yet')`
  return Prisma.sql`true`
}

/**
 * SQL of why the rows of a table `page` stand as they do on a day: since when, the suspension in force, the open retests;
 * and which tests for the certification are booked from today on.
 */
export const whyOf = (day: Prisma.Sql, today: Prisma.Sql): Prisma.Sql => Prisma.sql`
  (SELECT min(x.from_day)::text FROM standing x
    WHERE x.soldier_id = page.soldier_id AND x.certification_id = page.certification_id AND x.from_day <= ${day}
      AND x.from_day > COALESCE((SELECT max(y.from_day) FROM standing y WHERE y.soldier_id = page.soldier_id
        AND y.certification_id = page.certification_id AND y.from_day <= ${day} AND y.status <> page.status), '-infinity')
  ) AS since,
  CASE WHEN suspended THEN (SELECT json_build_object('from', x.from_day, 'reason', x.reason) FROM suspension x
    WHERE x.soldier_id = page.soldier_id AND x.certification_id = page.certification_id AND x.from_day <= ${day}
      AND (x.lift_day IS NULL OR x.lift_day > ${day}) ORDER BY x.from_day, x.id LIMIT 1) END AS suspension,
  (SELECT COALESCE(json_agg(json_build_object('standard', r.standard, 'on', r.on_day, 'earliest', r.earliest,
      'due', COALESCE(moved.due, r.due)) ORDER BY COALESCE(moved.due, r.due), r.standard), '[]')
    FROM retest_span r ${joinMovedDue('r')}
    WHERE r.soldier_id = page.soldier_id AND r.certification_id = page.certification_id
      AND r.from_day <= ${day} AND (r.through_day IS NULL OR r.through_day >= ${day})) AS retests,
  (SELECT COALESCE(json_agg(json_build_object('standard', std.code, 'on', td.on_day, 'startsAt',
      b.starts_at) ORDER BY td.on_day, b.starts_at, std.code), '[]')
    FROM booking b JOIN test_day td ON td.id = b.test_day_id JOIN standard std ON std.id = b.standard_id
    JOIN certification_standard cs ON cs.standard_id = b.standard_id AND cs.certification_id = page.certification_id
    WHERE b.candidate_id = page.soldier_id AND b.state IN ('booked', 'checked in') AND td.called_off_at IS NULL
      AND td.on_day >= ${today}) AS booked`
