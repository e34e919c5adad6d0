import { soldierInScope } from '../../../access/db/scope.db.ts'
import type { SoldierExtract } from '../../../contract/soldiers/extracts.ts'
import type { Transaction } from '../../../db/client.ts'
import { Prisma } from '../../../db/generated/client.ts'
import type { Scope } from '../../../domain/access/scope.ts'
import { extractLists, extractSheets } from './extract-lists.db.ts'

/** Everything held about one soldier in scope, in one question and so of one moment; null where there is none. */
export async function readExtract(
  tx: Transaction,
  scope: Scope,
  soldierId: string,
): Promise<Omit<SoldierExtract, 'madeAt'> | null> {
  const id = Prisma.sql`${soldierId}::uuid`
  const questions = Object.entries({ ...extractLists(id, scope), sheets: extractSheets(id) })
  const lists = questions.map(
    ([name, question]) =>
      Prisma.sql`${name}::text, (SELECT COALESCE(json_agg(row_to_json(list)), '[]') FROM (${question}) list)`,
  )
  const [row] = await tx.$queryRaw<Omit<SoldierExtract, 'madeAt'>[]>`
    SELECT json_build_object('id', s.id, 'rosterNumber', roster_number, 'familyName', family_name,
        'givenName', given_name, 'heightCm', height_cm) AS soldier,
      json_build_object(${Prisma.join(lists)}) AS lists
    FROM soldier s WHERE s.id = ${id} AND ${soldierInScope(scope, Prisma.sql`s.id`)}`
  return row ?? null
}
