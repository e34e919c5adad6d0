import type { Transaction } from '../../db/client.ts'
import type { SoldierChange, SoldierPeriod } from '../../domain/people/soldier-periods.ts'

/** All changes of these soldiers, by soldier. */
export async function changesOf(tx: Transaction, ids: readonly string[]): Promise<Map<string, SoldierChange[]>> {
  const rows = await tx.$queryRaw<(SoldierChange & { soldierId: string })[]>`
    SELECT soldier_id::text AS "soldierId", from_day::text AS "from", grade, arms, unit_id::text AS "unitId", "left",
      id::int AS entry
    FROM soldier_change WHERE soldier_id = ANY(${[...ids]}::uuid[]) ORDER BY id`
  const changes = new Map<string, SoldierChange[]>()
  for (const { soldierId, ...change } of rows) {
    const own = changes.get(soldierId)
    if (own) own.push(change)
    else changes.set(soldierId, [change])
  }
  return changes
}

/** Enters changes, in the order given. */
export async function insertChanges(
  tx: Transaction,
  changes: readonly (Omit<SoldierChange, 'entry'> & { readonly soldierId: string })[],
): Promise<void> {
  await tx.$executeRaw`
    INSERT INTO soldier_change (soldier_id, from_day, grade, arms, unit_id, "left")
    SELECT (e.value ->> 'soldierId')::uuid, (e.value ->> 'from')::date, e.value ->> 'grade',
      NULLIF(e.value -> 'arms', 'null'), (e.value ->> 'unitId')::uuid, e.value ->> 'left'
    FROM jsonb_array_elements(${JSON.stringify(changes)}::jsonb) WITH ORDINALITY AS e(value, n) ORDER BY n`
}

/** Replaces what is stored of soldiers' periods. */
export async function replacePeriods(
  tx: Transaction,
  periods: readonly (SoldierPeriod & { readonly soldierId: string })[],
): Promise<void> {
  const ids = [...new Set(periods.map(({ soldierId }) => soldierId))]
  await tx.$executeRaw`DELETE FROM soldier_period WHERE soldier_id = ANY(${ids}::uuid[])`
  await tx.$executeRaw`
    INSERT INTO soldier_period (soldier_id, from_day, through_day, unit_id, grade, arms)
    SELECT "soldierId", "from", through, "unitId", grade, ARRAY(SELECT jsonb_array_elements_text(arms))
    FROM jsonb_to_recordset(${JSON.stringify(periods)}::jsonb)
      AS x("soldierId" uuid, "from" date, through date, "unitId" uuid, grade text, arms jsonb)`
}
