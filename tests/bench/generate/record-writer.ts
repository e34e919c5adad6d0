import type pg from 'pg'
import { saveJudgement } from '../../../server/assessment/db/assessments.db.ts'
import type { Catalogue, StandardVersion } from '../../../server/db/catalogue.db.ts'
import type { Database } from '../../../server/db/client.ts'
import type { BenchSoldier } from './establishment.ts'
import { insertRows } from './insert-rows.ts'
import { insertSheets } from './insert-sheets.ts'
import type { JudgedCareer } from './judge-career.ts'
import { tallyWriter } from './tally-writer.ts'
import type { Career } from './write-career.ts'

export interface RecordWriter {
  add(soldier: BenchSoldier, career: Career, judged: JudgedCareer): Promise<void>
  /** Writes what is left, and the tallies. */
  finish(): Promise<void>
}

const SHEETS_A_BATCH = 1_000
const REVIEW = { soldier_id: 'uuid', standard: 'text', on_day: 'date', note: 'text' }

interface Desk {
  readonly db: Database
  readonly client: pg.Client
  readonly catalogue: Catalogue
  readonly version: StandardVersion
  /** The account that entered everything. */
  readonly byId: string
}

/**
 * Stores judged careers, which come battalion by battalion, in large batches, one written while the next is made.
 * Standings and tallies go through the product's own statements.
 */
export function recordWriter({ db, client, catalogue, version, byId }: Desk): RecordWriter {
  const certificationIds = new Map(catalogue.certifications.map(({ code, id }) => [code, id]))
  const tallies = tallyWriter(db, version)
  let batch: { soldier: BenchSoldier; career: Career; judged: JudgedCareer }[] = []
  let sheets = 0
  let writing: Promise<void> = Promise.resolve()

  const write = async (careers: typeof batch) => {
    await insertSheets(
      client,
      careers.map(({ judged }) => judged),
      byId,
    )
    await insertRows(
      client,
      'review',
      REVIEW,
      careers.flatMap(({ soldier, career }) =>
        career.reviews.map(({ standard, on }) => ({ soldier_id: soldier.id, standard, on_day: on, note: 'Reviewed.' })),
      ),
    )
    const standings = careers.flatMap(({ soldier, judged }) =>
      judged.assessment.certifications.map((after) => ({
        soldierId: soldier.id,
        certificationId: certificationIds.get(after.certification)!,
        before: { ...after, statuses: [], retests: [], earned: [] },
        after,
      })),
    )
    await saveJudgement(db, [], standings)
  }
  const flush = async () => {
    await writing
    writing = write(batch)
    writing.catch(() => {}) // Whoever waits for it next hears of it.
    batch = []
    sheets = 0
  }

  return {
    async add(soldier, career, judged) {
      batch.push({ soldier, career, judged })
      sheets += judged.sheets.length
      await tallies.add(soldier.battalion, judged)
      if (sheets >= SHEETS_A_BATCH) await flush()
    },
    async finish() {
      await flush()
      await writing
      await tallies.finish()
    },
  }
}
