import type pg from 'pg'
import { addMonths } from '../../../server/domain/calendar/add-months.ts'
import { addDays, type PlainDate } from '../../../server/domain/calendar/plain-date.ts'
import type { BenchSoldier, Establishment } from './establishment.ts'
import { insertRows } from './insert-rows.ts'

/** An award that the heads bring from paper. */
export interface PaperAward {
  readonly awardedOn: PlainDate
  readonly validThrough: PlainDate
}

/** One a year, so that a head is certified on every day of the record. */
export function paperAwards(span: { from: PlainDate; to: PlainDate }): PaperAward[] {
  const awards: PaperAward[] = []
  for (let on = addDays(span.from, -10); on <= span.to; on = addMonths(on, 12)) {
    awards.push({ awardedOn: on, validThrough: addMonths(on, 12) })
  }
  return awards
}

/** Stores units and people, with everything about them that is not on a sheet. */
export async function insertPeople(
  client: pg.Client,
  { units, soldiers }: Establishment,
  span: { from: PlainDate; to: PlainDate },
  { standard, swordId }: { standard: string; swordId: string },
): Promise<void> {
  const unit = { id: 'uuid', name: 'text', kind: 'text', parent_id: 'uuid', time_zone: 'text' }
  // A lineage is made from that of the unit above, which must be there: level by level.
  for (let above: readonly (string | null)[] = [null]; above.length > 0; ) {
    const parents = new Set(above)
    const level = units.filter(({ parent_id }) => parents.has(parent_id))
    await insertRows(client, 'unit', unit, level)
    above = level.map(({ id }) => id)
  }
  await insertRows(
    client,
    'soldier',
    { id: 'uuid', roster_number: 'text', family_name: 'text', given_name: 'text' },
    soldiers.map(({ id, rosterNumber, familyName, givenName }) => ({
      id,
      roster_number: rosterNumber,
      family_name: familyName,
      given_name: givenName,
    })),
  )
  await insertPeriods(client, soldiers)
  await insertRows(
    client,
    'sponsorship',
    { candidate_id: 'uuid', sponsor_id: 'uuid', from_day: 'date', to_day: 'date' },
    soldiers.flatMap(({ id, sponsorships }) =>
      sponsorships.map(({ sponsorId, from, to }) => ({
        candidate_id: id,
        sponsor_id: sponsorId,
        from_day: from,
        to_day: to,
      })),
    ),
  )
  await insertRows(
    client,
    'appointment',
    { soldier_id: 'uuid', standard: 'text', from_day: 'date', to_day: 'date' },
    soldiers
      .filter(({ role }) => role === 'grader')
      .map(({ id, joined }) => ({ soldier_id: id, standard, from_day: joined, to_day: null })),
  )
  await insertRows(
    client,
    'carried_award',
    { soldier_id: 'uuid', certification_id: 'uuid', awarded_on: 'date', valid_through: 'date', evidence: 'text' },
    soldiers
      .filter(({ role }) => role === 'head')
      .flatMap(({ id }) =>
        paperAwards(span).map(({ awardedOn, validThrough }) => ({
          soldier_id: id,
          certification_id: swordId,
          awarded_on: awardedOn,
          valid_through: validThrough,
          evidence: 'Certificate on paper.',
        })),
      ),
  )
}

async function insertPeriods(client: pg.Client, soldiers: readonly BenchSoldier[]): Promise<void> {
  await insertRows(
    client,
    'soldier_change',
    { soldier_id: 'uuid', from_day: 'date', grade: 'text', arms: 'jsonb', unit_id: 'uuid' },
    soldiers.flatMap(({ id, changes }) =>
      changes.map(({ from, grade, arms, unitId }) => ({
        soldier_id: id,
        from_day: from,
        grade,
        arms,
        unit_id: unitId,
      })),
    ),
  )
  await insertRows(
    client,
    'soldier_period',
    { soldier_id: 'uuid', from_day: 'date', through_day: 'date', unit_id: 'uuid', grade: 'text', arms: 'text[]' },
    soldiers.flatMap(({ id, periods }) =>
      periods.map(({ from, through, unitId, grade, arms }) => ({
        soldier_id: id,
        from_day: from,
        through_day: through,
        unit_id: unitId,
        grade,
        arms,
      })),
    ),
  )
}
