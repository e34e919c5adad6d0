import { soldierInScope } from '../../../access/db/scope.db.ts'
import { Prisma } from '../../../db/generated/client.ts'
import type { Scope } from '../../../domain/access/scope.ts'

const nameOf = (id: string): Prisma.Sql =>
  Prisma.sql`(SELECT n.family_name || ', ' || n.given_name FROM soldier n WHERE n.id = ${Prisma.raw(id)})`

const accountOf = (id: string): Prisma.Sql => Prisma.sql`(SELECT a.name FROM account a WHERE a.id = ${Prisma.raw(id)})`

const certificationOf = (id: string): Prisma.Sql =>
  Prisma.sql`(SELECT c.code FROM certification c WHERE c.id = ${Prisma.raw(id)})`

const standardOf = (id: string): Prisma.Sql =>
  Prisma.sql`(SELECT t.code FROM standard t WHERE t.id = ${Prisma.raw(id)})`

const unitOf = (id: string): Prisma.Sql => Prisma.sql`(SELECT u.name FROM unit u WHERE u.id = ${Prisma.raw(id)})`

/**
 * What is on file about a soldier beside sheets, a question each list, in the order in which it is shown. The names of its
 * columns are those of the answer. Others are named only where the reader may see them, or where they stand beside the
 * soldier in an entry about them (a sponsor, a grader).
 */
export const extractLists = (id: Prisma.Sql, scope: Scope): Record<string, Prisma.Sql> => ({
  periods: Prisma.sql`SELECT from_day AS "from", through_day AS through, ${unitOf('x.unit_id')} AS unit, grade, arms
    FROM soldier_period x WHERE soldier_id = ${id} ORDER BY from_day`,
  changesAsEntered: Prisma.sql`SELECT from_day AS "from", grade, arms, ${unitOf('x.unit_id')} AS unit, "left"
    FROM soldier_change x WHERE soldier_id = ${id} ORDER BY from_day, id`,
  absences: Prisma.sql`SELECT from_day AS "from", through_day AS through, kind
    FROM absence WHERE soldier_id = ${id} ORDER BY from_day, id`,
  certificationStatus: Prisma.sql`SELECT ${certificationOf('x.certification_id')} AS certification, from_day AS "from",
      through_day AS through, status, awarded_on AS "awardedOn", valid_through AS "validThrough", suspended
    FROM standing x WHERE soldier_id = ${id} ORDER BY 1, from_day`,
  awardsByTest: Prisma.sql`SELECT ${certificationOf('x.certification_id')} AS certification, awarded_on AS "awardedOn",
      valid_through AS "validThrough", in_force_from AS "inForceFrom", sheet_id AS sheet
    FROM earned_award x WHERE soldier_id = ${id} ORDER BY awarded_on, sheet_id`,
  awardsCarriedOver: Prisma.sql`SELECT ${certificationOf('x.certification_id')} AS certification,
      awarded_on AS "awardedOn", valid_through AS "validThrough", evidence
    FROM carried_award x WHERE soldier_id = ${id} ORDER BY entry`,
  decisionsOnAwards: Prisma.sql`SELECT ${certificationOf('x.certification_id')} AS certification, sheet_id AS sheet,
      decision, on_day AS "on", reason, ${accountOf('x.by_id')} AS "by", taken_back_at AS "takenBackAt",
      taken_back_reason AS "takenBackReason", ${accountOf('x.taken_back_by_id')} AS "takenBackBy"
    FROM award_decision x WHERE soldier_id = ${id} ORDER BY entry`,
  extensions: Prisma.sql`SELECT ${certificationOf('x.certification_id')} AS certification, sheet_id AS sheet, days, kind,
      on_day AS "on", reason, ${accountOf('x.by_id')} AS "by", taken_back_at AS "takenBackAt",
      taken_back_reason AS "takenBackReason", ${accountOf('x.taken_back_by_id')} AS "takenBackBy"
    FROM award_extension x WHERE soldier_id = ${id} ORDER BY entry`,
  suspensions: Prisma.sql`SELECT ${certificationOf('x.certification_id')} AS certification, from_day AS "from", reason,
      lift_day AS lifted, lift_reason AS "liftReason"
    FROM suspension x WHERE soldier_id = ${id} ORDER BY from_day, id`,
  withdrawals: Prisma.sql`SELECT ${certificationOf('x.certification_id')} AS certification, on_day AS "on", reason
    FROM withdrawal x WHERE soldier_id = ${id} ORDER BY on_day, id`,
  reviews: Prisma.sql`SELECT standard, on_day AS "on", note FROM review WHERE soldier_id = ${id} ORDER BY on_day, id`,
  retests: Prisma.sql`SELECT ${certificationOf('x.certification_id')} AS certification, standard, from_day AS "from",
      through_day AS through, on_day AS "noGoOn", earliest, due, no_gos_in_a_row AS "noGosInARow"
    FROM retest_span x WHERE soldier_id = ${id} ORDER BY from_day, 1, standard`,
  dueDaysMoved: Prisma.sql`SELECT ${certificationOf('x.certification_id')} AS certification, standard,
      on_day AS "noGoOn", due, reason, moved_at AS "at", ${accountOf('x.moved_by_id')} AS "by"
    FROM due_move x WHERE soldier_id = ${id} ORDER BY entry`,
  appointments: Prisma.sql`SELECT standard, from_day AS "from", to_day AS "to"
    FROM appointment WHERE soldier_id = ${id} ORDER BY from_day, id`,
  sponsors: Prisma.sql`SELECT ${nameOf('x.sponsor_id')} AS sponsor, from_day AS "from", to_day AS "to"
    FROM sponsorship x WHERE candidate_id = ${id} ORDER BY from_day, id`,
  candidatesCoached: Prisma.sql`SELECT CASE WHEN ${soldierInScope(scope, Prisma.sql`x.candidate_id`)}
      THEN ${nameOf('x.candidate_id')} END AS candidate, from_day AS "from", to_day AS "to"
    FROM sponsorship x WHERE sponsor_id = ${id} ORDER BY from_day, id`,
  coachingNotes: Prisma.sql`SELECT on_day AS "on", standard, measures, text, ${accountOf('x.by_id')} AS "by",
      written_at AS "writtenAt", changed_at AS "changedAt", removed_at AS "removedAt"
    FROM coaching_note x WHERE candidate_id = ${id} ORDER BY on_day, id`,
  practice: Prisma.sql`SELECT on_day AS "on", standard, arm, measures, ${accountOf('x.by_id')} AS "by",
      started_at AS "startedAt", finished_at AS "finishedAt", stored_at AS "storedAt"
    FROM practice x WHERE candidate_id = ${id} ORDER BY finished_at, id`,
  bookings: Prisma.sql`SELECT d.on_day AS "on", d.place, ${standardOf('x.standard_id')} AS standard,
      x.starts_at AS "startsAt", ${nameOf('x.grader_id')} AS grader, ${nameOf('x.second_grader_id')} AS "secondGrader",
      state, state_reason AS "stateReason", sheet_id AS sheet
    FROM booking x JOIN test_day d ON d.id = x.test_day_id WHERE candidate_id = ${id} ORDER BY d.on_day, x.id`,
  slotsToGrade: Prisma.sql`SELECT d.on_day AS "on", d.place, x.starts_at AS "startsAt", x.ends_at AS "endsAt",
      x.called_off AS "calledOff"
    FROM slot x JOIN test_day d ON d.id = x.test_day_id WHERE grader_id = ${id} ORDER BY x.starts_at, x.id`,
  bookedToGrade: Prisma.sql`SELECT d.on_day AS "on", d.place, ${standardOf('x.standard_id')} AS standard, state
    FROM booking x JOIN test_day d ON d.id = x.test_day_id WHERE ${id} IN (grader_id, second_grader_id)
    ORDER BY d.on_day, x.id`,
  posts: Prisma.sql`SELECT c.day AS "on", c.title AS ceremony, x.title AS post, x.arm,
      c.cancelled_at IS NOT NULL AS "calledOff"
    FROM post x JOIN ceremony c ON c.id = x.ceremony_id WHERE soldier_id = ${id} ORDER BY c.day, x.id`,
  standingBy: Prisma.sql`SELECT c.day AS "on", c.title AS ceremony, x.position
    FROM alternate x JOIN ceremony c ON c.id = x.ceremony_id WHERE soldier_id = ${id} ORDER BY c.day, x.id`,
  namedByPlans: Prisma.sql`SELECT c.day AS "on", c.title AS ceremony, p.title AS post, x.accepted_at AS "acceptedAt"
    FROM plan_name x JOIN ceremony c ON c.id = x.ceremony_id JOIN post p ON p.id = x.post_id
    WHERE x.soldier_id = ${id} ORDER BY c.day, x.plan_id, x.pair`,
  notices: Prisma.sql`SELECT at, kind, to_id = ${id} AS "toThem", standard, certification, day, sheet_id AS sheet
    FROM notice x WHERE to_id = ${id} OR about_id = ${id} ORDER BY at, id`,
  entriesMerged: Prisma.sql`SELECT at, ${accountOf('x.by_id')} AS "by", reason, away ->> 'roster_number' AS "rosterNumber",
      undone_at AS "undoneAt", undo_reason AS "undoReason"
    FROM soldier_merge x WHERE kept_id = ${id} ORDER BY entry`,
  removals: Prisma.sql`SELECT at, ${accountOf('x.by_id')} AS "by" FROM removal x WHERE soldier_id = ${id}`,
  account: Prisma.sql`SELECT name, roles, ${unitOf('x.unit_id')} AS unit, created_at AS "createdAt",
      disabled_at AS "disabledAt" FROM account x WHERE soldier_id = ${id}`,
  secondFactors: Prisma.sql`SELECT f.kind, f.name, f.created_at AS "createdAt", f.last_used_at AS "lastUsedAt"
    FROM account x JOIN (SELECT account_id, 'authenticator app' AS kind, NULL AS name, created_at, last_used_at
        FROM authenticator_app WHERE confirmed_at IS NOT NULL
      UNION ALL SELECT account_id, 'passkey', name, created_at, last_used_at FROM passkey) f ON f.account_id = x.id
    WHERE x.soldier_id = ${id} ORDER BY f.created_at, f.kind`,
  mail: Prisma.sql`SELECT m.address, m.set_at AS "givenAt", m.confirmed_at AS "confirmedAt", m.refused_at AS "refusedAt",
      (SELECT COALESCE(json_object_agg(c.kind, c.timing), '{}') FROM mail_choice c WHERE c.account_id = x.id) AS choices
    FROM account x LEFT JOIN mail_address m ON m.account_id = x.id WHERE x.soldier_id = ${id}
      AND (m.account_id IS NOT NULL OR EXISTS (SELECT FROM mail_choice c WHERE c.account_id = x.id))`,
  mailsToThem: Prisma.sql`SELECT q.kind, q.queued_at AS "queuedAt", q.state, q.done_at AS "doneAt", q.to_address AS "toAddress",
      q.problem FROM mail q JOIN account x ON x.id = q.account_id WHERE x.soldier_id = ${id} ORDER BY q.queued_at, q.id`,
  sheetsSigned: Prisma.sql`SELECT day AS "on", ${standardOf('x.standard_id')} AS standard, purpose,
      CASE WHEN grader_id = ${id} THEN 'grader' ELSE 'sponsor' END AS "as", id AS sheet
    FROM sheet x WHERE ${id} IN (grader_id, sponsor_id) ORDER BY day, id`,
  recordOfChanges: Prisma.sql`SELECT seq AS number, at, account_name AS "by", action, reason, before, after
    FROM record_entry WHERE subject_id = ${id}::text
      OR subject_id IN (SELECT s.id::text FROM sheet s WHERE s.candidate_id = ${id}) ORDER BY seq`,
})

/** The soldier's own sheets, each with all revisions, decisions, proposed amendments and appeals. */
export const extractSheets = (id: Prisma.Sql): Prisma.Sql => Prisma.sql`
  SELECT id, day AS "on", ${standardOf('x.standard_id')} AS standard, purpose, outcome, state, arm,
    ${nameOf('x.grader_id')} AS grader, ${nameOf('x.sponsor_id')} AS sponsor, attempts, violations, waived, tolerated,
    is_overlapping AS overlaps, received_at AS "receivedAt",
    (SELECT json_agg(json_build_object('number', r.number, 'at', r.at, 'by', ${accountOf('r.by_id')},
      'reason', r.reason, 'body', r.body, 'result', r.score) ORDER BY r.number)
      FROM sheet_revision r WHERE r.sheet_id = x.id) AS revisions,
    (SELECT COALESCE(json_agg(json_build_object('revision', d.revision, 'decision', d.decision, 'reason', d.reason,
      'waived', d.waived, 'at', d.at, 'by', ${accountOf('d.by_id')}) ORDER BY d.id), '[]')
      FROM sheet_decision d WHERE d.sheet_id = x.id) AS decisions,
    (SELECT COALESCE(json_agg(json_build_object('revision', p.revision, 'outcomeAfter', p.outcome_after,
      'reason', p.reason, 'proposedAt', p.proposed_at, 'decision', p.decision, 'decisionReason', p.decision_reason,
      'body', p.body) ORDER BY p.proposed_at, p.id), '[]')
      FROM amendment_proposal p WHERE p.sheet_id = x.id) AS "proposedAmendments",
    (SELECT COALESCE(json_agg(json_build_object('reason', a.reason, 'at', a.appealed_at, 'decision', a.decision,
      'decisionReason', a.decision_reason) ORDER BY a.appealed_at, a.id), '[]')
      FROM appeal a WHERE a.sheet_id = x.id) AS appeals
  FROM sheet x WHERE candidate_id = ${id} ORDER BY finished_at, id`
