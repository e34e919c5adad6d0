import type { StudySheet } from '#contract/coaching/study.ts'
import { fetchStudy } from '../../api/coaching/study.ts'
import { ApiError, NoAnswerError } from '../../api/errors.ts'
import { NONE_NOTED, type NotedFaults } from '../../domain/sheets/grading/fault-order.ts'
import { deviceDatabase } from './database.ts'
import type { KeptStudy } from './kept-study.ts'

/** The sheet from the server, kept on this device; without an answer the one that is kept, and since when. */
export const loadStudy = async (
  accountId: string,
  standard: string,
  candidateId: string,
): Promise<{ sheet: StudySheet; keptSince: string | null }> => {
  try {
    const sheet = await fetchStudy(standard, candidateId)
    // Where the device keeps nothing, the sheet is shown all the same.
    await keepStudy({ accountId, standard, candidateId, sheet, fetchedAt: new Date().toISOString() }).catch(
      () => undefined,
    )
    return { sheet, keptSince: null }
  } catch (error) {
    if (error instanceof ApiError && error.status === 404) {
      // Nobody's to see any more: not here either.
      await dropStudy(accountId, standard, candidateId).catch(() => undefined)
    }
    if (!(error instanceof NoAnswerError)) throw error
    const kept = await readStudy(accountId, standard, candidateId).catch(() => undefined)
    if (!kept) throw error
    return { sheet: kept.sheet, keptSince: kept.fetchedAt }
  }
}

const keepStudy = async (study: KeptStudy): Promise<void> => {
  await (await deviceDatabase()).put('studies', study)
}

const readStudy = async (accountId: string, standard: string, candidateId: string): Promise<KeptStudy | undefined> =>
  (await deviceDatabase()).get('studies', [accountId, standard, candidateId])

const dropStudy = async (accountId: string, standard: string, candidateId: string): Promise<void> =>
  (await deviceDatabase()).delete('studies', [accountId, standard, candidateId])

/** How often the unit is marked for each fault of a standard, as far as it was downloaded. */
export const readNoted = async (accountId: string, standard: string): Promise<NotedFaults> => {
  const kept = await readStudy(accountId, standard, '')
  if (!kept) return NONE_NOTED
  const minors = kept.sheet.measures.filter(({ major }) => !major)
  return new Map(
    minors.map(({ measure, faults }) => [measure, new Map(faults.map(({ fault, unit }) => [fault, unit]))]),
  )
}

/** All that an account can open without a network. */
export const listStudies = async (accountId: string): Promise<KeptStudy[]> =>
  (await deviceDatabase()).getAll('studies', IDBKeyRange.bound([accountId], [accountId, []]))

/** Lets go of sheets of candidates who are not among these any more; those about nobody stay. */
export const dropStudiesOfOthers = async (accountId: string, candidateIds: ReadonlySet<string>): Promise<void> => {
  for (const { standard, candidateId } of await listStudies(accountId)) {
    if (candidateId !== '' && !candidateIds.has(candidateId)) {
      await dropStudy(accountId, standard, candidateId)
    }
  }
}
