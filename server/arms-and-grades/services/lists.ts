import { createHash } from 'node:crypto'
import { requireAction } from '../../access/services/require.ts'
import { rosterScopeFor } from '../../access/services/scope-for.ts'
import type { Context } from '../../context/context.ts'
import { today } from '../../context/today.ts'
import type {
  ArmsAndGrades,
  ArmsAndGradesBody,
  ArmsAndGradesUse,
} from '../../contract/arms-and-grades/arms-and-grades.ts'
import type { Transaction } from '../../db/client.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { AppError, conflict, type ErrorItem } from '../../errors.ts'
import { recorded } from '../../record/services/recorded.ts'
import {
  armsInUse,
  countUse,
  gradesInUse,
  lockLists,
  readArms,
  readGrades,
  replaceArms,
  replaceGrades,
} from '../db/arms-and-grades.db.ts'

/** The grades and arms of the unit, in its order. They name nobody, so everybody who is signed in may read them. */
export const getLists = (context: Context, _actor: Actor): Promise<ArmsAndGrades> => readLists(context.db)

async function readLists(tx: Transaction): Promise<ArmsAndGrades> {
  const [grades, arms] = [await readGrades(tx), await readArms(tx)]
  const version = createHash('sha256')
    .update(JSON.stringify([grades, arms]))
    .digest('hex')
    .slice(0, 16)
  return { grades, arms, version }
}

/**
 * Replaces the lists. They must be as they were read; one that something on record names stays, for a past day must not
 * lose its grade.
 */
export async function saveLists(context: Context, actor: Actor, body: ArmsAndGradesBody): Promise<ArmsAndGrades> {
  requireAction(actor, 'manage-people')
  requireOnce(body)
  return recorded(context, actor, async (tx, note) => {
    await lockLists(tx)
    const before = await readLists(tx)
    if (before.version !== body.version) {
      throw conflict(
        'stale-lists',
        'The lists were changed since they were read, by somebody else or because a new grade or arm came in. Read them again.',
      )
    }
    const gone = <Entry extends { code: string }>(was: readonly Entry[], is: readonly Entry[]) =>
      was.map(({ code }) => code).filter((code) => !is.some((entry) => entry.code === code))
    const stay = [
      ...(await gradesInUse(tx, gone(before.grades, body.grades))).map((code) => ['grade', code] as const),
      ...(await armsInUse(tx, gone(before.arms, body.arms))).map((code) => ['arm', code] as const),
    ]
    if (stay.length > 0) {
      const items = stay.map(([kind, code]) => ({
        pointer: `/${kind}s`,
        rule: 'in-use' as const,
        detail: `The ${kind} ${code} is in use: somebody has or had it, or a standard, certification or post names it. Correct those first, or keep it.`,
      }))
      throw new AppError('conflict', 'in-use', items.map(({ detail }) => detail).join(' '), items)
    }
    await replaceGrades(tx, body.grades)
    await replaceArms(tx, body.arms)
    const after = await readLists(tx)
    note({ action: 'lists.changed', subject: { kind: 'lists', id: null }, before, after })
    return after
  })
}

function requireOnce({ grades, arms }: ArmsAndGradesBody): void {
  const repeated = (kind: 'grade' | 'arm', entries: readonly { code: string }[]): ErrorItem[] =>
    entries.flatMap(({ code }, at) =>
      entries.findIndex((entry) => entry.code === code) < at
        ? [{ pointer: `/${kind}s/${at}/code`, rule: 'repeated', detail: `The ${kind} ${code} is in the list twice.` }]
        : [],
    )
  const items = [...repeated('grade', grades), ...repeated('arm', arms)]
  if (items[0]) throw new AppError('invalid', items[0].rule, items[0].detail, items)
}

/** How many of those whom an account sees have each grade and carry each arm today. */
export async function getUse(context: Context, actor: Actor): Promise<ArmsAndGradesUse> {
  const rows = await countUse(context.db, await rosterScopeFor(context, actor), await today(context))
  const of = (kind: 'grade' | 'arm') =>
    rows.filter((row) => row.kind === kind).map(({ code, soldiers }) => ({ code, soldiers }))
  return { grades: of('grade'), arms: of('arm') }
}
