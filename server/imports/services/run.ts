import type { Trigger } from '../../assessment/services/settle.ts'
import type { Context } from '../../context/context.ts'
import type { ImportRow } from '../../contract/imports/imports.ts'
import type { Catalogue } from '../../db/catalogue.db.ts'
import type { Transaction } from '../../db/client.ts'
import { lockSoldiers } from '../../db/locks.db.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { AppError } from '../../errors.ts'
import type { Note } from '../../record/services/recorded.ts'
import type { Questions } from './questions.ts'

/** Hears how far the work has come; throws where it is to be given up. */
export type Progress = (stage: string, done: number, total: number) => void

/** What taking in a file works with. */
export interface Run {
  readonly context: Context
  readonly tx: Transaction
  readonly actor: Actor
  readonly catalogue: Catalogue
  readonly now: Date
  /** Everything is thrown away again, so nobody has to wait for it. */
  readonly trial: boolean
  readonly note: Note
  readonly questions: Questions
  readonly progress: Progress
}

/** Something that rows of the file say. */
export interface Given<Item> {
  readonly rows: readonly number[]
  /** What the rows are about, in words. */
  readonly about: string
  /** Where fields of it are unread, a part of one: the rest is looked at all the same, so that all is said at once. */
  readonly item: Item
  /** What is wrong with it. */
  readonly faults: readonly string[]
  readonly unread: ReadonlySet<string>
}

export type Verdict = Pick<ImportRow, 'outcome' | 'about' | 'reasons'>

/** What became of the things given, and what has to be judged anew. */
export interface Effect {
  /** By row. */
  readonly verdicts: ReadonlyMap<number, Verdict>
  readonly triggers: readonly Trigger[]
  /** Rows of new sheets, by sheet, whose outcome the judgement decides. */
  readonly sheets?: ReadonlyMap<string, readonly number[]>
  /** Paths of units that were added. */
  readonly newUnits?: readonly string[]
}

/** Collects what becomes of things, row by row. */
export function verdictList() {
  const verdicts = new Map<number, Verdict>()
  return {
    verdicts,
    say(rows: readonly number[], outcome: Verdict['outcome'], about: string, ...reasons: string[]) {
      for (const row of rows) verdicts.set(row, { outcome, about, reasons: [...new Set(reasons)] })
    },
  }
}

/** Nobody else judges these soldiers until the end; a trial run changes nothing and keeps nobody waiting. */
export async function holdSoldiers({ tx, trial }: Run, ids: readonly string[]): Promise<void> {
  if (!trial && ids.length > 0) await lockSoldiers(tx, [...new Set(ids)])
}

/** Calls with parts of a list, each small enough for one statement. */
export async function inParts<Item>(
  list: readonly Item[],
  size: number,
  work: (part: readonly Item[], done: number) => Promise<void>,
): Promise<void> {
  for (let at = 0; at < list.length; at += size) {
    const part = list.slice(at, at + size)
    await work(part, at + part.length)
  }
}

/** What a refusal says of each place, for the row that it is about; any other error is thrown on. */
export function formatRefusal(error: unknown): string[] {
  if (!(error instanceof AppError)) throw error
  return error.items.length > 0 ? error.items.map(({ detail }) => detail) : [error.message]
}

/** Nobody on the roster has this number. */
export const nobody = (number: string): string =>
  `Nobody on the roster has the number ${number}. Take the roster in first, or mend the number.`
