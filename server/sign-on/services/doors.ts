import type { Context } from '../../context/context.ts'
import { listDoors, readFold } from '../db/providers.db.ts'
import { providersOf } from './providers-of.ts'

/** The ways to sign in beside name and password, as the sign-in page shows them. */
export async function findDoors({
  db,
}: Context): Promise<{ providers: { id: string; name: string }[]; foldsPasswords: boolean }> {
  const providers = (await listDoors(db)).map(({ id, name }) => ({ id, name }))
  return { providers, foldsPasswords: providers.length > 0 && (await readFold(db)) }
}

/** Which of them answer just now. */
export async function findAnswering(context: Context): Promise<{ ids: string[] }> {
  const doors = await listDoors(context.db)
  const providers = providersOf(context)
  const answers = await Promise.all(doors.map(({ issuer }) => providers.answers(issuer)))
  return { ids: doors.filter((_, at) => answers[at]).map(({ id }) => id) }
}
