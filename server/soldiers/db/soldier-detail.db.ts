import { soldierInScope } from '../../access/db/scope.db.ts'
import type { SoldierDetail } from '../../contract/soldiers/soldiers.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'

type Lists = Omit<
  SoldierDetail,
  'id' | 'rosterNumber' | 'familyName' | 'givenName' | 'grade' | 'arms' | 'unitId' | 'joined' | 'left' | 'removedAt'
>

/** Grade and name of a person as of a day (their nearest grade where they had none). */
const personName = (id: Prisma.Sql, day: Prisma.Sql): Prisma.Sql => Prisma.sql`
  (SELECT concat_ws(' ', (SELECT grade FROM soldier_period WHERE soldier_id = n.id
      ORDER BY from_day > ${day}, abs(from_day - ${day}) LIMIT 1), n.family_name) || ', ' || n.given_name
    FROM soldier n WHERE n.id = ${id})`

/** Of a soldier in scope: periods, coaching (of candidates in scope), appointments, reviews, withdrawals, carried-over awards and suspensions of one soldier. */
export async function readSoldierLists(tx: Transaction, scope: Scope, id: string, day: string): Promise<Lists> {
  const on = Prisma.sql`${day}::date`
  const [row] = await tx.$queryRaw<[Lists]>`
    SELECT
    (SELECT COALESCE(json_agg(json_build_object('from', from_day, 'through', through_day, 'grade', grade, 'arms', arms,
        'unitId', unit_id) ORDER BY from_day), '[]') FROM soldier_period WHERE soldier_id = ${id}::uuid) AS periods,
    (SELECT COALESCE(json_agg(json_build_object('id', x.id, 'sponsorId', x.sponsor_id,
        'sponsorName', ${personName(Prisma.sql`x.sponsor_id`, on)}, 'from', x.from_day, 'to', x.to_day)
        ORDER BY x.from_day DESC, x.id), '[]') FROM sponsorship x WHERE x.candidate_id = ${id}::uuid) AS sponsors,
    (SELECT COALESCE(json_agg(json_build_object('id', x.id, 'candidateId', x.candidate_id,
        'candidateName', ${personName(Prisma.sql`x.candidate_id`, on)}, 'from', x.from_day, 'to', x.to_day)
        ORDER BY x.from_day DESC, x.id), '[]') FROM sponsorship x WHERE x.sponsor_id = ${id}::uuid
        AND ${soldierInScope(scope, Prisma.sql`x.candidate_id`)}) AS candidates,
    (SELECT COALESCE(json_agg(json_build_object('id', id, 'standard', standard, 'from', from_day, 'to', to_day)
        ORDER BY from_day), '[]') FROM appointment WHERE soldier_id = ${id}::uuid) AS appointments,
    (SELECT COALESCE(json_agg(json_build_object('id', id, 'standard', standard, 'on', on_day, 'note', note)
        ORDER BY on_day), '[]') FROM review WHERE soldier_id = ${id}::uuid) AS reviews,
    (SELECT COALESCE(json_agg(json_build_object('id', w.id, 'certification', c.code, 'on', w.on_day,
        'reason', w.reason) ORDER BY w.on_day), '[]')
      FROM withdrawal w JOIN certification c ON c.id = w.certification_id WHERE w.soldier_id = ${id}::uuid) AS withdrawals,
    (SELECT COALESCE(json_agg(json_build_object('id', a.id, 'certification', c.code, 'awardedOn', a.awarded_on,
        'validThrough', a.valid_through, 'evidence', a.evidence) ORDER BY a.awarded_on, a.entry), '[]')
      FROM carried_award a JOIN certification c ON c.id = a.certification_id WHERE a.soldier_id = ${id}::uuid) AS awards,
    (SELECT COALESCE(json_agg(json_build_object('id', x.id, 'certification', c.code, 'from', x.from_day,
        'reason', x.reason, 'lift', x.lift_day, 'liftReason', x.lift_reason) ORDER BY x.from_day), '[]')
      FROM suspension x JOIN certification c ON c.id = x.certification_id
      WHERE x.soldier_id = ${id}::uuid) AS suspensions`
  return row
}
