import { readFile } from 'node:fs/promises'
import path from 'node:path'
import { CertificationBody } from '../../../server/contract/standards/certifications.ts'
import { StandardBody } from '../../../server/contract/standards/standards.ts'
import { bumpRevision, type Catalogue, readCatalogue } from '../../../server/db/catalogue.db.ts'
import type { Database } from '../../../server/db/client.ts'
import { inTransaction } from '../../../server/db/transaction.ts'
import { addDays, type PlainDate } from '../../../server/domain/calendar/plain-date.ts'
import {
  insertCertification,
  insertStandardVersion,
  insertTerms,
  publishStandardVersion,
} from '../../../server/standards/db/catalogue-writes.db.ts'

const standing = path.resolve(import.meta.dirname, '../../cases/standard-standing.json')

/** The standing standard, in force from the first day of the record. */
export async function readStandard(from: PlainDate): Promise<StandardBody> {
  const body: object = JSON.parse(await readFile(standing, 'utf8'))
  return StandardBody.parse({ ...body, effectiveFrom: addDays(from, -30) })
}

/** Stores the standard, and a certification for each of its arms that is renewed twice a year. */
export async function insertCatalogue(db: Database, standard: StandardBody): Promise<Catalogue> {
  return inTransaction(db, async (tx) => {
    const id = await insertStandardVersion(tx, standard)
    await publishStandardVersion(tx, id, new Date(`${standard.effectiveFrom}T00:00:00Z`))
    const [version] = (await readCatalogue(tx)).standards.get(standard.code)!
    for (const arm of ['saber', 'sword']) {
      const body = CertificationBody.parse({
        code: arm,
        title: `${arm}, standing`,
        standards: [standard.code],
        arms: [arm],
        validityMonths: 6,
        effectiveFrom: standard.effectiveFrom,
      })
      await insertTerms(tx, await insertCertification(tx, body, [version!.standardId]), body)
    }
    await bumpRevision(tx)
    return readCatalogue(tx)
  })
}
