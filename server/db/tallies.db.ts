import type { Contribution } from '../domain/tallies/contribution.ts'
import type { Transaction } from './client.ts'
import { Prisma } from './generated/client.ts'

/** The unit id under which sheets of days without a unit are gathered. */
export const NO_UNIT = '00000000-0000-0000-0000-000000000000'

/**
 * Each contribution at every unit above its own and in its year, month and day. `share` numbers contributions; rows come
 * out in the order of the tally's key, so that transactions take its locks in one order.
 */
const spread = (contributions: readonly Contribution[]): Prisma.Sql => Prisma.sql`
  share AS (
    SELECT * FROM jsonb_to_recordset(${JSON.stringify(contributions)}::jsonb) AS x(
      "standardId" uuid, "unitId" uuid, day date, arm text, kind text, "sponsorId" uuid, passed boolean,
      measures jsonb, faults jsonb)),
  placed AS (
    SELECT share.*, above.unit_id, grain.grain, grain.start
    FROM share
    CROSS JOIN LATERAL unnest(COALESCE((SELECT lineage FROM unit WHERE id = share."unitId"), ARRAY[${NO_UNIT}::uuid]))
      AS above(unit_id)
    CROSS JOIN LATERAL (VALUES ('year', date_trunc('year', share.day::timestamp)::date),
      ('month', date_trunc('month', share.day::timestamp)::date), ('day', share.day)) AS grain(grain, start))`

const KEYED = Prisma.sql`
  keyed AS (
    SELECT tally.id AS tally_id, placed.* FROM placed JOIN tally ON tally.unit_id = placed.unit_id
      AND tally.standard_id = placed."standardId" AND tally.grain = placed.grain AND tally.start = placed.start
      AND tally.arm = COALESCE(placed.arm, '') AND tally.kind = placed.kind)`

const MEASURES = Prisma.sql`
  SELECT tally_id, m.measure, m.major, sum(m.tested)::int AS tested, sum(m."noGo")::int AS no_go,
    sum(m.trials)::int AS trials, sum(m.incorrect)::int AS incorrect
  FROM keyed CROSS JOIN LATERAL jsonb_to_recordset(keyed.measures)
    AS m(measure text, major boolean, tested int, "noGo" int, trials int, incorrect int)
  GROUP BY tally_id, m.measure, m.major ORDER BY tally_id, m.measure, m.major`

const FAULTS = Prisma.sql`
  SELECT tally_id, f.measure, f.major, f.fault, sum(f.count)::int AS count
  FROM keyed CROSS JOIN LATERAL jsonb_to_recordset(keyed.faults)
    AS f(measure text, major boolean, fault text, count int)
  GROUP BY tally_id, f.measure, f.major, f.fault ORDER BY tally_id, f.measure, f.major, f.fault`

const SPONSORS = Prisma.sql`
  SELECT tally_id, "sponsorId" AS sponsor_id, count(*)::int AS attempts, count(*) FILTER (WHERE passed)::int AS passes
  FROM keyed WHERE "sponsorId" IS NOT NULL
  GROUP BY tally_id, "sponsorId" ORDER BY tally_id, "sponsorId"`

/** Adds attempts to the tallies. */
export async function addToTallies(tx: Transaction, contributions: readonly Contribution[]): Promise<void> {
  if (contributions.length === 0) return
  await tx.$executeRaw`
    WITH ${spread(contributions)}
    INSERT INTO tally (unit_id, standard_id, grain, start, arm, kind)
    SELECT DISTINCT unit_id, "standardId", grain, start, COALESCE(arm, ''), kind FROM placed
    ORDER BY unit_id, "standardId", grain, start, 5, kind
    ON CONFLICT DO NOTHING`
  await tx.$executeRaw`
    WITH ${spread(contributions)}, ${KEYED},
    measures AS (
      INSERT INTO measure_tally AS t (tally_id, measure, major, tested, no_go, trials, incorrect) ${MEASURES}
      ON CONFLICT (tally_id, measure, major) DO UPDATE SET tested = t.tested + excluded.tested,
        no_go = t.no_go + excluded.no_go, trials = t.trials + excluded.trials,
        incorrect = t.incorrect + excluded.incorrect),
    faults AS (
      INSERT INTO fault_tally AS t (tally_id, measure, major, fault, count) ${FAULTS}
      ON CONFLICT (tally_id, measure, major, fault) DO UPDATE SET count = t.count + excluded.count)
    INSERT INTO sponsor_tally AS t (tally_id, sponsor_id, attempts, passes) ${SPONSORS}
    ON CONFLICT (tally_id, sponsor_id) DO UPDATE SET attempts = t.attempts + excluded.attempts,
      passes = t.passes + excluded.passes`
}

/** Takes attempts out of the tallies again; they were added before. */
export async function takeFromTallies(tx: Transaction, contributions: readonly Contribution[]): Promise<void> {
  if (contributions.length === 0) return
  await tx.$executeRaw`
    WITH ${spread(contributions)}, ${KEYED},
    measures AS (
      UPDATE measure_tally t SET tested = t.tested - gone.tested, no_go = t.no_go - gone.no_go,
        trials = t.trials - gone.trials, incorrect = t.incorrect - gone.incorrect
      FROM (${MEASURES}) gone
      WHERE t.tally_id = gone.tally_id AND t.measure = gone.measure AND t.major = gone.major),
    faults AS (
      UPDATE fault_tally t SET count = t.count - gone.count FROM (${FAULTS}) gone
      WHERE t.tally_id = gone.tally_id AND t.measure = gone.measure AND t.major = gone.major AND t.fault = gone.fault)
    UPDATE sponsor_tally t SET attempts = t.attempts - gone.attempts, passes = t.passes - gone.passes
    FROM (${SPONSORS}) gone WHERE t.tally_id = gone.tally_id AND t.sponsor_id = gone.sponsor_id`
}
