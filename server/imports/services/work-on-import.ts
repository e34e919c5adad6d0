import { isDeepStrictEqual } from 'node:util'
import type { Context } from '../../context/context.ts'
import type { Catalogue } from '../../db/catalogue.db.ts'
import { readCatalogue } from '../../db/catalogue.db.ts'
import type { Transaction } from '../../db/client.ts'
import { lockCatalogue, shareCatalogue } from '../../db/locks.db.ts'
import { inTransaction } from '../../db/transaction.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { AppError } from '../../errors.ts'
import { appendToRecord, type RecordEntry } from '../../record/db/record.db.ts'
import { noteFor } from '../../record/services/recorded.ts'
import { readOutcomes, rememberMapping, saveOutcomes } from '../db/import-rows.db.ts'
import { beat, endWork, type StoredImport } from '../db/imports.db.ts'
import { GivenUp } from './import-jobs.ts'
import { orDiskFull } from './or-disk-full.ts'
import { questionList } from './questions.ts'
import { readFile } from './read-file.ts'
import type { Progress } from './run.ts'
import { labelsKey } from './suggest-columns.ts'
import { type TakenIn, takeIn } from './take-in.ts'

/** Thrown to end a transaction of which nothing is to stay. */
class ThrownAway extends Error {
  readonly taken: TakenIn

  constructor(taken: TakenIn) {
    super('Nothing of it stays.')
    this.taken = taken
  }
}

/** Longest that taking in a file may last. */
const LONGEST_MS = 20 * 60_000

/** Finds out what becomes of a file, by taking it in and throwing all of it away again. */
export async function checkFile(context: Context, actor: Actor, job: StoredImport, progress: Progress): Promise<void> {
  await ending(context, job.id, 'The file could not be checked.', async () => {
    const taken = await trial(context, actor, job, progress)
    progress('noting', 0, 1)
    await saveOutcomes(context.db, job.id, taken.rows)
    if (job.format !== 'json') {
      await rememberMapping(context.db, job.kind, labelsKey(job.labels), job.mapping ?? {}, context.clock())
    }
    if (await beat(context.db, job.id, { stage: 'noting', done: 1, total: 1 })) throw new GivenUp()
    await endWork(context.db, job.id, {
      state: 'checked',
      counts: taken.counts,
      newUnits: taken.newUnits,
      questions: taken.questions,
    })
  })
}

async function trial(context: Context, actor: Actor, job: StoredImport, progress: Progress): Promise<TakenIn> {
  try {
    return await inTransaction(
      context.db,
      async (tx): Promise<never> => {
        await shareCatalogue(tx)
        const catalogue = await context.catalogue.current(tx)
        throw new ThrownAway(await take(tx, catalogue, context, actor, job, progress, null))
      },
      LONGEST_MS,
    )
  } catch (error) {
    if (error instanceof ThrownAway) return error.taken
    throw error
  }
}

/**
 * Stores a file that was checked: all of it but the refused rows, or nothing. What comes of it must be what was said when
 * it was checked; where the record has changed since so that it is not, nothing is stored and the new outcome is said.
 */
export async function storeFile(context: Context, actor: Actor, job: StoredImport, progress: Progress): Promise<void> {
  await ending(context, job.id, 'The file could not be stored.', async () => {
    const said = await readOutcomes(context.db, job.id)
    try {
      await inTransaction(
        context.db,
        async (tx) => {
          await (job.kind === 'standards' ? lockCatalogue(tx) : shareCatalogue(tx))
          const catalogue = job.kind === 'standards' ? await readCatalogue(tx) : await context.catalogue.current(tx)
          const entries: RecordEntry[] = []
          const taken = await take(tx, catalogue, context, actor, job, progress, entries)
          if (!isDeepStrictEqual(taken.rows, said)) throw new ThrownAway(taken)
          progress('recording', 0, 1)
          const { fileName, kind } = job
          const after = { fileName, kind, ...taken.counts }
          entries.push({ action: 'import.stored', subject: { kind: 'import', id: job.id }, after })
          const { accountId, name, address } = actor
          await appendToRecord(tx, { accountId, name, address }, context.clock(), entries)
          await endWork(tx, job.id, { state: 'stored', counts: taken.counts, newUnits: taken.newUnits })
        },
        LONGEST_MS,
      )
    } catch (error) {
      if (!(error instanceof ThrownAway)) throw error
      await saveOutcomes(context.db, job.id, error.taken.rows)
      const problem =
        'The record has changed since the file was checked, so nothing was stored. Look at it again; then store it.'
      await endWork(context.db, job.id, {
        state: 'checked',
        problem,
        counts: error.taken.counts,
        newUnits: error.taken.newUnits,
        questions: error.taken.questions,
      })
    }
  })
}

async function take(
  tx: Transaction,
  catalogue: Catalogue,
  context: Context,
  actor: Actor,
  job: StoredImport,
  progress: Progress,
  entries: RecordEntry[] | null,
): Promise<TakenIn> {
  const file = await readFile(tx, catalogue, job, progress)
  const note = noteFor(actor, (entry) => void entries?.push(entry))
  const questions = questionList(job.answers)
  const trial = entries === null
  const run = { context, tx, actor, catalogue, now: context.clock(), trial, note, questions, progress }
  return takeIn(run, job.kind, file)
}

/** Does work on a file and keeps how it ended, whatever happens. */
async function ending(context: Context, id: string, failed: string, work: () => Promise<void>): Promise<void> {
  try {
    await orDiskFull(work)
  } catch (error) {
    if (error instanceof GivenUp) {
      await endWork(context.db, id, { state: 'cancelled', problem: 'It was given up; nothing was stored.' })
      return
    }
    const known = error instanceof AppError
    await endWork(context.db, id, {
      state: 'failed',
      problem: known ? error.message : `${failed} Nothing was stored; try again.`,
    })
    if (!known) throw error
  }
}
