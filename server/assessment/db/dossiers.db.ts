import type { Transaction } from '../../db/client.ts'
import type { AssessedSheet, Dossier, Qualification, SheetAssessment } from '../../domain/assessment/types.ts'
import type { Span, SpannedRetest } from '../../domain/certification/spans.ts'
import type { CertificationStatus } from '../../domain/certification/types.ts'

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
  readonly earned: readonly { sheetId: string; awardedOn: string; validThrough: string; finishedAt: number }[]
}

export interface StoredDossier extends Dossier {
  readonly sheets: readonly StoredSheet[]
  readonly standings: ReadonlyMap<string, StoredStanding>
  readonly people: ReadonlyMap<string, Qualification>
}

type ByCertification<Value> = readonly (Value & { readonly certification: string })[] | null

interface DossierRow {
  readonly id: string
  readonly sheets: StoredSheet[] | null
  readonly periods: Dossier['periods'] | null
  readonly sponsorships: Dossier['sponsorships'] | null
  readonly reviews: Dossier['reviews'] | null
  readonly awards: ByCertification<{ awardedOn: string; validThrough: string; entry: number }>
  readonly withdrawals: ByCertification<{ on: string }>
  readonly suspensions: ByCertification<{ from: string; lift: string | null }>
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
  const rows = await tx.$queryRaw<DossierRow[]>`
    SELECT person.id::text,
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
      WHERE s.candidate_id = person.id) AS sheets,
    (SELECT json_agg(json_build_object('from', from_day, 'through', through_day, 'unitId', unit_id, 'arms', arms)
        ORDER BY from_day) FROM soldier_period WHERE soldier_id = person.id) AS periods,
    (SELECT json_agg(json_build_object('sponsorId', sponsor_id, 'from', from_day, 'to', to_day))
      FROM sponsorship WHERE candidate_id = person.id) AS sponsorships,
    (SELECT json_agg(json_build_object('standard', standard, 'on', on_day))
      FROM review WHERE soldier_id = person.id) AS reviews,
    (SELECT json_agg(json_build_object('certification', c.code, 'awardedOn', a.awarded_on,
        'validThrough', a.valid_through, 'entry', a.entry))
      FROM carried_award a JOIN certification c ON c.id = a.certification_id
      WHERE a.soldier_id = person.id) AS awards,
    (SELECT json_agg(json_build_object('certification', c.code, 'on', w.on_day))
      FROM withdrawal w JOIN certification c ON c.id = w.certification_id
      WHERE w.soldier_id = person.id) AS withdrawals,
    (SELECT json_agg(json_build_object('certification', c.code, 'from', x.from_day, 'lift', x.lift_day))
      FROM suspension x JOIN certification c ON c.id = x.certification_id
      WHERE x.soldier_id = person.id) AS suspensions,
    (SELECT json_agg(json_build_object('certification', c.code, 'from', p.from_day, 'through', p.through_day,
        'value', json_build_object('status', p.status, 'awardedOn', p.awarded_on, 'validThrough', p.valid_through,
          'suspended', p.suspended, 'toward', p.toward, 'retestOpen', p.retest_open)) ORDER BY p.from_day)
      FROM standing p JOIN certification c ON c.id = p.certification_id
      WHERE p.soldier_id = person.id) AS statuses,
    (SELECT json_agg(json_build_object('certification', c.code, 'from', r.from_day, 'through', r.through_day,
        'value', json_build_object('standard', r.standard, 'attempt', r.attempt, 'on', r.on_day,
          'earliest', r.earliest, 'due', r.due, 'noGosInARow', r.no_gos_in_a_row, 'needsReview', r.needs_review))
        ORDER BY cs.position, r.from_day)
      FROM retest_span r JOIN certification c ON c.id = r.certification_id JOIN standard st ON st.code = r.standard
        JOIN certification_standard cs ON cs.certification_id = c.id AND cs.standard_id = st.id
      WHERE r.soldier_id = person.id) AS retests,
    (SELECT json_agg(json_build_object('certification', c.code, 'sheetId', e.sheet_id, 'awardedOn', e.awarded_on,
        'validThrough', e.valid_through, 'finishedAt', round(extract(epoch FROM e.finished_at) * 1000))
        ORDER BY e.finished_at, e.sheet_id)
      FROM earned_award e JOIN certification c ON c.id = e.certification_id
      WHERE e.soldier_id = person.id) AS earned
    FROM soldier person WHERE person.id = ANY(${[...soldierIds]}::uuid[])`
  const others = rows.flatMap(({ sheets }) => graderAndSponsorIds(sheets ?? []))
  const people = await readQualifications(tx, [...new Set([...besidePeople, ...others])])
  return new Map(rows.map((row) => [row.id, toDossier(row, people)]))
}

function toDossier(row: DossierRow, people: ReadonlyMap<string, Qualification>): StoredDossier {
  return {
    sheets: row.sheets ?? [],
    periods: row.periods ?? [],
    sponsorships: row.sponsorships ?? [],
    reviews: row.reviews ?? [],
    awards: grouped(row.awards),
    withdrawals: new Map([...grouped(row.withdrawals)].map(([code, list]) => [code, list.map(({ on }) => on)])),
    suspensions: grouped(row.suspensions),
    standings: standingsOf(row),
    people,
  }
}

function graderAndSponsorIds(sheets: readonly StoredSheet[]): string[] {
  const judged = sheets.filter(({ purpose }) => purpose === 'test')
  return [...new Set(judged.flatMap(({ graderId, sponsorId }) => (sponsorId ? [graderId, sponsorId] : [graderId])))]
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

interface QualificationRow {
  readonly id: string
  readonly awards: Qualification['awards'] | null
  readonly suspensions: Qualification['suspensions'] | null
  readonly appointments: Qualification['appointments'] | null
}

/** What qualifies people to grade and to sponsor, by person. */
async function readQualifications(tx: Transaction, ids: readonly string[]): Promise<Map<string, Qualification>> {
  if (ids.length === 0) return new Map()
  const rows = await tx.$queryRaw<QualificationRow[]>`
    SELECT person.id::text,
    (SELECT json_agg(a) FROM (
      SELECT c.code AS certification, e.awarded_on AS "awardedOn", e.valid_through AS "validThrough", 0 AS entry,
        json_build_object('id', e.sheet_id, 'finishedAt', round(extract(epoch FROM e.finished_at) * 1000)) AS "madeBy"
      FROM earned_award e JOIN certification c ON c.id = e.certification_id WHERE e.soldier_id = person.id
      UNION ALL
      SELECT c.code, a.awarded_on, a.valid_through, a.entry, NULL
      FROM carried_award a JOIN certification c ON c.id = a.certification_id WHERE a.soldier_id = person.id) a) AS awards,
    (SELECT json_agg(json_build_object('certification', c.code, 'from', x.from_day, 'lift', x.lift_day))
      FROM suspension x JOIN certification c ON c.id = x.certification_id WHERE x.soldier_id = person.id) AS suspensions,
    (SELECT json_agg(json_build_object('standard', p.standard, 'from', p.from_day, 'to', p.to_day))
      FROM appointment p WHERE p.soldier_id = person.id) AS appointments
    FROM soldier person WHERE person.id = ANY(${[...ids]}::uuid[])`
  return new Map(
    rows.map(({ id, awards, suspensions, appointments }) => [
      id,
      { awards: awards ?? [], suspensions: suspensions ?? [], appointments: appointments ?? [] },
    ]),
  )
}
