import { createRandom } from '../../../seed/generate/random.ts'
import { readDossier, type StoredDossier } from '../../../server/assessment/db/dossiers.db.ts'
import { type Catalogue, readCatalogue } from '../../../server/db/catalogue.db.ts'
import type { Database } from '../../../server/db/client.ts'
import { assessSoldier } from '../../../server/domain/assessment/assess-soldier.ts'
import type { AssessedSheet, CertificationAssessment } from '../../../server/domain/assessment/types.ts'
import { addDays, type PlainDate } from '../../../server/domain/calendar/plain-date.ts'
import { tallyLayout } from '../../../server/domain/tallies/tally-layout.ts'
import { contributionOf } from '../generate/contributions.ts'
import type { BenchSoldier } from '../generate/establishment.ts'
import type { FilledRecord } from '../generate/fill-database.ts'
import { scoreWritten, toAssessed } from '../generate/judge-career.ts'
import { testDayFrom } from '../generate/write-career.ts'
import { type WrittenSheet, writeSheet } from '../generate/write-sheet.ts'
import type { PreparedSheet } from './prepared-sheet.ts'
import { spanChanges, spanRows } from './span-rows.ts'

/**
 * The next two tests of every candidate of the first battalion, a week apart, with all that storing them changes. Out:
 * first all first tests, then all second ones. Sponsors are left out: what they earn decides about others' sheets, so
 * that with several senders at once the order of arrival would show in the rows.
 */
export async function prepareSheets(db: Database, record: FilledRecord, endsOn: PlainDate): Promise<PreparedSheet[][]> {
  const random = createRandom(endsOn.length)
  const catalogue = await readCatalogue(db)
  const first = testDayFrom(addDays(endsOn, 7), 0)
  const rounds: PreparedSheet[][] = [[], []]
  for (const soldier of record.establishment.soldiers) {
    if (soldier.battalion !== 0 || soldier.role !== 'candidate') continue
    const written = [first, addDays(first, 7)].map((day) =>
      writeSheet(random, record.grounds[0]!, soldier, day, 'test'),
    )
    const prepared = await prepareFor(db, catalogue, soldier, written)
    for (const [index, sheet] of prepared.entries()) rounds[index]!.push(sheet)
  }
  return rounds
}

async function prepareFor(
  db: Database,
  catalogue: Catalogue,
  soldier: BenchSoldier,
  written: readonly WrittenSheet[],
): Promise<PreparedSheet[]> {
  const others = written.flatMap(({ body }) => [body.graderId, body.sponsorId ?? body.graderId])
  const dossier = await readDossier(db, soldier.id, [...new Set(others)])
  const ids = new Map(catalogue.certifications.map(({ code, id }) => [code, id]))
  let sheets: readonly AssessedSheet[] = dossier.sheets
  const version = catalogue.standards.get(written[0]!.body.standard)![0]!
  const layout = tallyLayout(version.definition)
  let standings: readonly CertificationAssessment[] = storedStandings(catalogue, dossier)
  return written.map((one) => {
    const sheet = scoreWritten(catalogue, one)
    const own = toAssessed(sheet)
    const after = assessSoldier(catalogue.judging, { ...dossier, sheets: [...sheets, own] }, dossier.people)
    const assessment = after.sheets.find(({ id }) => id === sheet.id)!
    const changes = spanChanges(spanRows(standings, ids), spanRows(after.certifications, ids))
    sheets = [...sheets, { ...own, state: assessment.state, violations: assessment.violations }]
    standings = after.certifications
    return {
      sheet,
      json: JSON.stringify(sheet.body),
      assessment,
      contribution: contributionOf(version.id, layout, sheet, assessment),
      ...changes,
    }
  })
}

function storedStandings(catalogue: Catalogue, { standings }: StoredDossier): CertificationAssessment[] {
  return catalogue.certifications.map(
    ({ code }) => standings.get(code) ?? { certification: code, statuses: [], retests: [], earned: [] },
  )
}
