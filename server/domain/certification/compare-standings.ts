/** How somebody stands in a certification on a day, as far as an effect is told. */
export interface StandingRow {
  readonly soldierId: string
  readonly certification: string
  readonly rosterNumber: string
  readonly status: string
  readonly validThrough: string | null
  readonly required: boolean
}

/** Somebody who stands otherwise. Null: the certification did not fit them, or does no longer. */
export interface StandingChange<Row extends StandingRow> {
  readonly before: Row | null
  readonly after: Row | null
}

/**
 * Who stands otherwise in which certification after a change than before it, on the same day: by roster number, then
 * certification.
 */
export function compareStandings<Row extends StandingRow>(
  before: readonly Row[],
  after: readonly Row[],
): StandingChange<Row>[] {
  const keyOf = ({ soldierId, certification }: StandingRow) => `${soldierId} ${certification}`
  const then = new Map(before.map((row) => [keyOf(row), row]))
  const now = new Map(after.map((row) => [keyOf(row), row]))
  const changes = [...new Set([...then.keys(), ...now.keys()])].map((key) => ({
    before: then.get(key) ?? null,
    after: now.get(key) ?? null,
  }))
  return changes.filter(({ before: one, after: other }) => !isSame(one, other)).sort(byPerson)
}

function isSame(one: StandingRow | null, other: StandingRow | null): boolean {
  if (one === null || other === null) return one === other
  return one.status === other.status && one.validThrough === other.validThrough && one.required === other.required
}

function byPerson<Row extends StandingRow>(a: StandingChange<Row>, b: StandingChange<Row>): number {
  const [one, other] = [a.before ?? a.after!, b.before ?? b.after!]
  if (one.rosterNumber !== other.rosterNumber) return one.rosterNumber < other.rosterNumber ? -1 : 1
  return one.certification < other.certification ? -1 : 1
}
