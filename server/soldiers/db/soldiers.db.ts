import type { SoldierBody, SoldierChangeBody } from '../../contract/soldiers/soldiers.ts'
import type { Transaction } from '../../db/client.ts'
import { toDate } from '../../db/dates.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { SoldierChange, SoldierPeriod } from '../../domain/people/soldier-periods.ts'

/** Adds a soldier to the roster; the first change says how they joined. Out: the id. */
export async function insertSoldier(
  tx: Transaction,
  { rosterNumber, familyName, givenName }: Pick<SoldierBody, 'rosterNumber' | 'familyName' | 'givenName'>,
): Promise<string> {
  const { id } = await tx.soldier.create({ data: { rosterNumber, familyName, givenName }, select: { id: true } })
  return id
}

export async function insertChange(tx: Transaction, soldierId: string, change: SoldierChangeBody): Promise<void> {
  const { from, grade, arms, unitId, left } = change
  await tx.soldierChange.create({
    data: {
      soldierId,
      fromDay: toDate(from),
      grade: grade ?? null,
      arms: arms ?? Prisma.DbNull,
      unitId: unitId ?? null,
      left: left ?? null,
    },
  })
}

/** Replaces what a change says. */
export async function updateChange(tx: Transaction, id: number, change: SoldierChangeBody): Promise<void> {
  const { from, grade, arms, unitId, left } = change
  await tx.soldierChange.update({
    where: { id },
    data: {
      fromDay: toDate(from),
      grade: grade ?? null,
      arms: arms ?? Prisma.DbNull,
      unitId: unitId ?? null,
      left: left ?? null,
    },
  })
}

/** Takes a change out, where it is there still. */
export async function deleteChange(tx: Transaction, id: number): Promise<void> {
  await tx.soldierChange.deleteMany({ where: { id } })
}

export async function updateNames(
  tx: Transaction,
  id: string,
  names: Pick<SoldierBody, 'rosterNumber' | 'familyName' | 'givenName'>,
): Promise<void> {
  await tx.soldier.update({ where: { id }, data: names })
}

/** All changes of a soldier, in any order. */
export async function readChanges(tx: Transaction, soldierId: string): Promise<SoldierChange[]> {
  return tx.$queryRaw<SoldierChange[]>`
    SELECT from_day::text AS "from", grade, arms, unit_id::text AS "unitId", "left", id::int AS entry
    FROM soldier_change WHERE soldier_id = ${soldierId}::uuid`
}

/** Replaces what is stored of a soldier's periods. */
export async function savePeriods(
  tx: Transaction,
  soldierId: string,
  periods: readonly SoldierPeriod[],
): Promise<void> {
  await tx.$executeRaw`DELETE FROM soldier_period WHERE soldier_id = ${soldierId}::uuid`
  await tx.$executeRaw`
    INSERT INTO soldier_period (soldier_id, from_day, through_day, unit_id, grade, arms)
    SELECT ${soldierId}::uuid, "from", through, "unitId", grade, ARRAY(SELECT jsonb_array_elements_text(arms))
    FROM jsonb_to_recordset(${JSON.stringify(periods)}::jsonb)
      AS x("from" date, through date, "unitId" uuid, grade text, arms jsonb)`
}

/** Keeps a soldier's height in centimetres; null: not known. */
export async function storeHeight(tx: Transaction, soldierId: string, heightCm: number | null): Promise<void> {
  await tx.soldier.update({ where: { id: soldierId }, data: { heightCm } })
}
