import { queryOptions } from '@tanstack/react-query'
import * as endpoints from '#contract/soldiers/endpoints.ts'
import { call } from '../client.ts'

/** Each time it is asked for stands in the record of changes, so it is asked for once a visit. */
const ONCE = { staleTime: Number.POSITIVE_INFINITY, gcTime: 0, refetchOnWindowFocus: false, refetchOnReconnect: false }

export const extractQuery = (id: string) =>
  queryOptions({
    queryKey: ['extract', id],
    queryFn: () => call(endpoints.extractSoldier, { params: { id } }),
    ...ONCE,
  })

export const certificateQuery = (id: string, certification: string) =>
  queryOptions({
    queryKey: ['certificate', id, certification],
    queryFn: () => call(endpoints.makeCertificate, { params: { id }, query: { certification } }),
    ...ONCE,
  })

/** The awards behind the record number of a certificate. */
export const certificateRecordQuery = (number: string) =>
  queryOptions({
    queryKey: ['certificate-record', number],
    queryFn: () => call(endpoints.lookUpCertificate, { params: { number } }),
    enabled: number !== '',
  })

/** Whether a certificate is the unit's own and still in force. In: what its code holds behind the #. */
export const verifyCertificate = (certificate: string) => call(endpoints.verifyCertificate, { body: { certificate } })
