import type { ImportKind } from '../../contract/imports/imports.ts'
import type { Catalogue } from '../../db/catalogue.db.ts'
import type { Transaction } from '../../db/client.ts'
import { invalid } from '../../errors.ts'
import {
  appointmentItems,
  awardItems,
  ceremonyItems,
  rosterItems,
  sheetBodies,
  sponsorshipItems,
} from '../db/export-items.db.ts'

type Item = Readonly<Record<string, unknown>>

/** All things of a kind that are in the record, in the layout in which files bring them. */
export async function exportItems(tx: Transaction, catalogue: Catalogue, kind: ImportKind): Promise<Item[]> {
  switch (kind) {
    case 'roster':
      return rosterItems(tx)
    case 'awards':
      return awardItems(tx)
    case 'sponsorships':
      return sponsorshipItems(tx)
    case 'appointments':
      return appointmentItems(tx)
    case 'ceremonies':
      return ceremonyItems(tx)
    case 'standards':
      return [...catalogue.standards.values()].flat().map(({ definition }) => ({ ...definition }))
    case 'sheets':
      return (await sheetBodies(tx)).map(toSheet)
    case 'results':
      throw invalid(
        'results-are-sheets',
        'kind',
        'What is here of old results is among the sheets, with its times; take those.',
      )
  }
}

type Stored = Awaited<ReturnType<typeof sheetBodies>>[number]

function toSheet({ id, body, numbers }: Stored): Item {
  const { candidateId, graderId, sponsorId, acknowledged, ...rest } = body
  return {
    id,
    ...rest,
    candidate: numbers[candidateId],
    grader: numbers[graderId],
    sponsor: sponsorId && numbers[sponsorId],
    acknowledged: acknowledged.map(({ soldierId, at }) => ({ rosterNumber: numbers[soldierId], at })),
  }
}
