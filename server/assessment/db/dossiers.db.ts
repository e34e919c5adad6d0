import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type {
  AssessedSheet,
  Dossier,
  EarnedAward,
  Qualification,
  SheetAssessment,
} from '../../domain/assessment/types.ts'
import type { Span, SpannedRetest } from '../../domain/certification/spans.ts'
import type { AwardDecision, CarriedAward, CertificationStatus, Extension } from '../../domain/certification/types.ts'
import { extendedDaysOf } from './extended-days.db.ts'

/** A sheet as it stands in the record, with what the tallies hold of it. */
export interface StoredSheet extends AssessedSheet {
  readonly state: 'counted' | 'held' | 'rejected'
  readonly revision: number
  readonly standardId: string
  readonly overlaps: boolean
  readonly attempts: SheetAssessment['attempts']
  readonly talliedKind: SheetAssessment['kind']
  readonly talliedUnitId: string | null
}

/** How a soldier stands in a certification as stored. */
export interface StoredStanding {
  readonly certification: string
  readonly statuses: readonly Span<Omit<CertificationStatus, 'certification'>>[]
  readonly retests: readonly Span<SpannedRetest>[]
  readonly earned: readonly EarnedAward[]
}

export interface StoredDossier extends Dossier {
  readonly sheets: readonly StoredSheet[]
  readonly standings: ReadonlyMap<string, StoredStanding>
  readonly people: ReadonlyMap<string, Qualification>
}

type ByCertification<Value> = readonly (Value & { readonly certification: string })[] | null

export interface DossierRow {
  readonly sheets: StoredSheet[] | null
  readonly periods: Dossier['periods'] | null
  readonly sponsorships: Dossier['sponsorships'] | null
  readonly reviews: Dossier['reviews'] | null
  readonly awards: ByCertification<CarriedAward>
  readonly withdrawals: ByCertification<{ on: string }>
  readonly suspensions: ByCertification<{ from: string; lift: string | null }>
  readonly decisions: ByCertification<AwardDecision>
  readonly extensions: ByCertification<Extension>
  readonly statuses: ByCertification<Span<CertificationStatus>>
  readonly retests: ByCertification<Span<SpannedRetest>>
  readonly earned: ByCertification<StoredStanding['earned'][number]>
}

/**
 * Everything the judgement of one soldier's sheets depends on, and what is stored of it; `people` holds graders and
 * sponsors of the sheets, and those asked for beside them.
 */
export async function readDossier(
  tx: Transaction,
  soldierId: string,
  besidePeople: readonly string[] = [],
): Promise<StoredDossier> {
  return (await readDossiers(tx, [soldierId], besidePeople)).get(soldierId)!
}

/** The same of several soldiers, by soldier; `people` of each holds those of all. */
export async function readDossiers(
  tx: Transaction,
  soldierIds: readonly string[],
  besidePeople: readonly string[] = [],
): Promise<Map<string, StoredDossier>> {
  const ids = Prisma.sql`${[...soldierIds]}::uuid[]`
  const [row] = await tx.$queryRaw<
    [{ dossiers: (DossierRow & { id: string })[] | null; people: QualificationRow[] | null }]
  >`
    SELECT (SELECT json_agg(d) FROM (SELECT person.id, ${dossierOf(EVERYTHING)} FROM soldier person WHERE person.id = ANY(${ids})) d) AS dossiers,
      ${peopleFor(ids, besidePeople)} AS people`
  const people = toPeople(row.people)
  return new Map((row.dossiers ?? []).map(({ id, ...dossier }) => [id, toDossier(dossier, people)]))
}

/** SQL of conditions on what of a dossier is read: on sheets `s`, spans of statuses `p` and of retests `r`, earned awards `e`. */
interface DossierPart {
  readonly sheets: Prisma.Sql
  readonly statuses: Prisma.Sql
  readonly retests: Prisma.Sql
  readonly earned: Prisma.Sql
}

const ALL = Prisma.sql`true`
const EVERYTHING: DossierPart = { sheets: ALL, statuses: ALL, retests: ALL, earned: ALL }

/** Sheets that finished at `person.place` or later with what they earned, and spans that reach the day before `person.since` or a later one. */
export const FROM_PLACE_ON: DossierPart = {
  sheets: Prisma.sql`s.finished_at >= person.place`,
  statuses: Prisma.sql`(p.through_day IS NULL OR p.through_day >= person.since - 1)`,
  retests: Prisma.sql`(r.through_day IS NULL OR r.through_day >= person.since - 1)`,
  earned: Prisma.sql`e.finished_at >= person.place`,
}

/** SQL of the attempts that count of `person.id` which finished before `person.place`. */
export const EARLIER_ATTEMPTS = Prisma.sql`
    (SELECT json_agg(json_build_object('id', s.id, 'standard', st.code, 'version', v.version, 'arm', s.arm,
        'finishedAt', round(extract(epoch FROM s.finished_at) * 1000), 'day', s.day, 'outcome', s.outcome))
      FROM sheet s JOIN standard_version v ON v.id = s.standard_version_id JOIN standard st ON st.id = v.standard_id
      WHERE s.candidate_id = person.id AND s.finished_at < person.place AND s.state = 'counted' AND s.purpose = 'test'
        AND s.outcome <> 'VOID' AND s.second_of IS NULL)`

/** SQL of the columns of a dossier, of the soldier whose id is `person.id`. */
export const dossierOf = (part: DossierPart): Prisma.Sql => Prisma.sql`
    (SELECT json_agg(json_build_object('id', s.id, 'candidateId', s.candidate_id, 'sponsorId', s.sponsor_id,
        'graderId', s.grader_id, 'standardId', s.standard_id, 'standard', st.code, 'version', v.version,
        'purpose', s.purpose, 'arm', s.arm, 'secondOf', s.second_of, 'isSecond', s.second_of IS NOT NULL,
        'outcomeOnly', s.ending = 'recorded', 'isVoid', s.ending = 'void', 'outcome', s.outcome, 'day', s.day,
        'startedAt', round(extract(epoch FROM s.started_at) * 1000),
        'finishedAt', round(extract(epoch FROM s.finished_at) * 1000),
        'storedAt', round(extract(epoch FROM s.revised_at) * 1000),
        'conditionsMet', s.conditions_met, 'voidAfterFailure', s.void_after_failure, 'clockSkewMs', s.clock_skew_ms,
        'revision', s.revision, 'state', s.state, 'violations', s.violations, 'waived', s.waived,
        'tolerated', s.tolerated, 'overlaps', s.is_overlapping, 'attempts', s.attempts,
        'talliedKind', s.tallied_kind, 'talliedUnitId', s.tallied_unit_id))
      FROM sheet s JOIN standard st ON st.id = s.standard_id JOIN standard_version v ON v.id = s.standard_version_id
      WHERE s.candidate_id = person.id AND ${part.sheets}) AS sheets,
    (SELECT json_agg(json_build_object('from', from_day, 'through', through_day, 'unitId', unit_id, 'arms', arms)
        ORDER BY from_day) FROM soldier_period WHERE soldier_id = person.id) AS periods,
    (SELECT json_agg(json_build_object('sponsorId', sponsor_id, 'from', from_day, 'to', to_day))
      FROM sponsorship WHERE candidate_id = person.id) AS sponsorships,
    (SELECT json_agg(json_build_object('standard', standard, 'on', on_day))
      FROM review WHERE soldier_id = person.id) AS reviews,
    (SELECT json_agg(json_build_object('certification', c.code, 'id', a.id, 'awardedOn', a.awarded_on,
        'validThrough', a.valid_through, 'entry', a.entry))
      FROM carried_award a JOIN certification c ON c.id = a.certification_id
      WHERE a.soldier_id = person.id) AS awards,
    (SELECT json_agg(json_build_object('certification', c.code, 'on', w.on_day))
      FROM withdrawal w JOIN certification c ON c.id = w.certification_id
      WHERE w.soldier_id = person.id) AS withdrawals,
    (SELECT json_agg(json_build_object('certification', c.code, 'from', x.from_day, 'lift', x.lift_day))
      FROM suspension x JOIN certification c ON c.id = x.certification_id
      WHERE x.soldier_id = person.id) AS suspensions,
    (SELECT json_agg(json_build_object('certification', c.code, 'sheetId', d.sheet_id, 'decision', d.decision,
        'on', d.on_day))
      FROM award_decision d JOIN certification c ON c.id = d.certification_id
      WHERE d.soldier_id = person.id AND d.taken_back_at IS NULL) AS decisions,
    (SELECT json_agg(json_build_object('certification', c.code, 'award', COALESCE(x.sheet_id, x.carried_award_id),
        'days', x.days))
      FROM award_extension x JOIN certification c ON c.id = x.certification_id
      WHERE x.soldier_id = person.id AND x.taken_back_at IS NULL) AS extensions,
    (SELECT json_agg(json_build_object('certification', c.code, 'from', p.from_day, 'through', p.through_day,
        'value', json_build_object('status', p.status, 'awardedOn', p.awarded_on, 'validThrough', p.valid_through,
          'suspended', p.suspended, 'toward', p.toward, 'retestOpen', p.retest_open)) ORDER BY p.from_day)
      FROM standing p JOIN certification c ON c.id = p.certification_id
      WHERE p.soldier_id = person.id AND ${part.statuses}) AS statuses,
    (SELECT json_agg(json_build_object('certification', c.code, 'from', r.from_day, 'through', r.through_day,
        'value', json_build_object('standard', r.standard, 'attempt', r.attempt, 'on', r.on_day,
          'earliest', r.earliest, 'due', r.due, 'noGosInARow', r.no_gos_in_a_row, 'needsReview', r.needs_review))
        ORDER BY cs.position, r.from_day)
      FROM retest_span r JOIN certification c ON c.id = r.certification_id JOIN standard st ON st.code = r.standard
        JOIN certification_standard cs ON cs.certification_id = c.id AND cs.standard_id = st.id
      WHERE r.soldier_id = person.id AND ${part.retests}) AS retests,
    (SELECT json_agg(json_build_object('certification', c.code, 'sheetId', e.sheet_id, 'awardedOn', e.awarded_on,
        'validThrough', e.valid_through, 'inForceFrom', e.in_force_from,
        'finishedAt', round(extract(epoch FROM e.finished_at) * 1000))
        ORDER BY e.finished_at, e.sheet_id)
      FROM earned_award e JOIN certification c ON c.id = e.certification_id
      WHERE e.soldier_id = person.id AND ${part.earned}) AS earned`

/** A dossier as the rules take it. */
export function toDossier(row: DossierRow, people: ReadonlyMap<string, Qualification>): StoredDossier {
  return {
    sheets: row.sheets ?? [],
    periods: row.periods ?? [],
    sponsorships: row.sponsorships ?? [],
    reviews: row.reviews ?? [],
    awards: grouped(row.awards),
    withdrawals: new Map([...grouped(row.withdrawals)].map(([code, list]) => [code, list.map(({ on }) => on)])),
    suspensions: grouped(row.suspensions),
    decisions: grouped(row.decisions),
    extensions: grouped(row.extensions),
    standings: standingsOf(row),
    people,
  }
}

function standingsOf(row: DossierRow): Map<string, StoredStanding> {
  const [statuses, retests, earned] = [grouped(row.statuses), grouped(row.retests), grouped(row.earned)]
  const codes = new Set([...statuses.keys(), ...retests.keys(), ...earned.keys()])
  return new Map(
    [...codes].map((certification) => [
      certification,
      {
        certification,
        statuses: statuses.get(certification) ?? [],
        retests: retests.get(certification) ?? [],
        earned: earned.get(certification) ?? [],
      },
    ]),
  )
}

function grouped<Value>(list: ByCertification<Value>): Map<string, Value[]> {
  const groups = new Map<string, Value[]>()
  for (const { certification, ...value } of list ?? []) {
    groups.set(certification, [...(groups.get(certification) ?? []), value as Value])
  }
  return groups
}

export interface QualificationRow {
  readonly id: string
  readonly awards: Qualification['awards'] | null
  readonly suspensions: Qualification['suspensions'] | null
  readonly appointments: Qualification['appointments'] | null
}

/** What qualifies people, by person. */
export const toPeople = (rows: readonly QualificationRow[] | null): Map<string, Qualification> =>
  new Map(
    (rows ?? []).map(({ id, awards, suspensions, appointments }) => [
      id,
      { awards: awards ?? [], suspensions: suspensions ?? [], appointments: appointments ?? [] },
    ]),
  )

/**
 * SQL of what qualifies people to grade and to sponsor, as a list of `QualificationRow`: of those who graded or sponsored a
 * test of some soldiers (SQL of an array of ids, and of a condition on their sheets `s`), and of those named beside them.
 */
export const peopleFor = (
  soldierIds: Prisma.Sql,
  besidePeople: readonly string[],
  sheets = ALL,
): Prisma.Sql => Prisma.sql`
  (SELECT json_agg(q) FROM (SELECT named.id,
    (SELECT json_agg(a) FROM (
      SELECT c.code AS certification, e.awarded_on AS "awardedOn", e.valid_through AS "validThrough",
        e.in_force_from AS "inForceFrom", 0 AS entry,
        json_build_object('id', e.sheet_id, 'finishedAt', round(extract(epoch FROM e.finished_at) * 1000)) AS "madeBy"
      FROM earned_award e JOIN certification c ON c.id = e.certification_id WHERE e.soldier_id = named.id
      UNION ALL
      SELECT c.code, a.awarded_on, a.valid_through + ${extendedDaysOf('a')}, a.awarded_on, a.entry, NULL
      FROM carried_award a JOIN certification c ON c.id = a.certification_id WHERE a.soldier_id = named.id) a) AS awards,
    (SELECT json_agg(json_build_object('certification', c.code, 'from', x.from_day, 'lift', x.lift_day))
      FROM suspension x JOIN certification c ON c.id = x.certification_id WHERE x.soldier_id = named.id) AS suspensions,
    (SELECT json_agg(json_build_object('standard', p.standard, 'from', p.from_day, 'to', p.to_day))
      FROM appointment p WHERE p.soldier_id = named.id) AS appointments
    FROM soldier named WHERE named.id = ANY(ARRAY(
      SELECT unnest(${[...besidePeople]}::uuid[])
      UNION SELECT s.grader_id FROM sheet s WHERE s.candidate_id = ANY(${soldierIds}) AND s.purpose = 'test' AND ${sheets}
      UNION SELECT s.sponsor_id FROM sheet s WHERE s.candidate_id = ANY(${soldierIds}) AND s.purpose = 'test' AND ${sheets}))) q)`
