import { queryOptions } from '@tanstack/react-query'
import type { page } from '#contract/common.ts'
import type { Certificate, CertificateRecord, SoldierExtract } from '#contract/soldiers/extracts.ts'
import { get } from '../client.ts'

/** Each time it is asked for stands in the record of changes, so it is asked for once a visit. */
const ONCE = { staleTime: Number.POSITIVE_INFINITY, gcTime: 0, refetchOnWindowFocus: false, refetchOnReconnect: false }

export const extractQuery = (id: string) =>
  queryOptions({
    queryKey: ['extract', id],
    queryFn: () => get<typeof SoldierExtract>(`/soldiers/${id}/extract`),
    ...ONCE,
  })

export const certificateQuery = (id: string, certification: string) =>
  queryOptions({
    queryKey: ['certificate', id, certification],
    queryFn: () => get<typeof Certificate>(`/soldiers/${id}/certificate`, { certification }),
    ...ONCE,
  })

/** The awards behind the record number of a certificate. */
export const certificateRecordQuery = (number: string) =>
  queryOptions({
    queryKey: ['certificate-record', number],
    queryFn: () => get<ReturnType<typeof page<typeof CertificateRecord>>>(`/certificates/${number}`),
    enabled: number !== '',
  })
