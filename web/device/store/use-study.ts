import { queryOptions, useQueryClient } from '@tanstack/react-query'
import { useEffect } from 'react'
import { dropStudiesOfOthers, loadStudy } from './study-store.ts'

/** A study sheet, from the server or else from this device; '' as the candidate: about nobody. */
export const studyQuery = (accountId: string, standard: string, candidateId: string) =>
  queryOptions({
    queryKey: ['study', accountId, standard, candidateId],
    queryFn: () => loadStudy(accountId, standard, candidateId),
  })

/** Whose study sheet of what. */
interface StudyWanted {
  readonly soldierId: string
  readonly standard: string
}

/** Keeps the study sheets of a sponsor's candidates on this device, for where there is no network; those of others go. */
export const useKeepStudies = (accountId: string, wanted: readonly StudyWanted[] | undefined): void => {
  const client = useQueryClient()
  const key = wanted?.map(({ soldierId, standard }) => `${soldierId} ${standard}`).join()
  useEffect(() => {
    if (key === undefined) return
    const tests = key.split(',').flatMap((one) => {
      const [soldierId, standard] = one.split(' ')
      return soldierId && standard ? [{ soldierId, standard }] : []
    })
    for (const { soldierId, standard } of tests) client.prefetchQuery(studyQuery(accountId, standard, soldierId))
    // A device that refuses to keep anything shows what the server sends.
    dropStudiesOfOthers(accountId, new Set(tests.map(({ soldierId }) => soldierId))).catch(() => undefined)
  }, [client, accountId, key])
}

/** What the unit is marked for changes little in a day. */
const NOTED_AGAIN_MS = 3_600_000

/** Keeps the study sheet of each of these standards, about nobody: by it the likeliest faults are offered first. */
export const useKeepNoted = (accountId: string, standards: readonly { readonly code: string }[] | undefined): void => {
  const client = useQueryClient()
  const codes = standards && [...new Set(standards.map(({ code }) => code))].join(' ')
  useEffect(() => {
    for (const code of codes?.split(' ').filter(Boolean) ?? []) {
      client.prefetchQuery({ ...studyQuery(accountId, code, ''), staleTime: NOTED_AGAIN_MS })
    }
  }, [client, accountId, codes])
}
