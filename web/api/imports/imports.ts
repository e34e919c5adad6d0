import { infiniteQueryOptions, keepPreviousData, queryOptions } from '@tanstack/react-query'
import * as endpoints from '#contract/imports/endpoints.ts'
import type { Import, ImportKind, ImportPlan, RowOutcome } from '#contract/imports/imports.ts'
import { addressOf } from '../address-of.ts'
import { call, upload } from '../client.ts'

const GLANCE_MILLISECONDS = 700

/** Whether a server is at work on a file. */
export const isUnderWay = ({ state }: Pick<Import, 'state'>): boolean => state === 'checking' || state === 'storing'

/** The files one has sent, the latest first. */
export const importsQuery = queryOptions({
  queryKey: ['imports'],
  queryFn: () => call(endpoints.listImports, { query: { limit: 20 } }),
})

/** A file and how far it has come; asked again while it is worked on. */
export const importQuery = (id: string) =>
  queryOptions({
    queryKey: ['imports', id],
    queryFn: () => call(endpoints.getImport, { params: { id } }),
    refetchInterval: ({ state: { data } }) => (data && isUnderWay(data) ? GLANCE_MILLISECONDS : false),
  })

/** What its columns may be taken for; `mapping`: as chosen so far. */
export const importColumnsQuery = (id: string, kind: ImportKind, mapping?: ImportPlan['mapping']) =>
  queryOptions({
    queryKey: ['imports', id, 'columns', kind, mapping ?? null],
    queryFn: () =>
      call(endpoints.suggestImportColumns, { params: { id }, body: { kind, ...(mapping && { mapping }) } }),
    placeholderData: keepPreviousData,
  })

/** What becomes of its rows, page after page. */
export const importRowsQuery = (id: string, outcome: RowOutcome | undefined) =>
  infiniteQueryOptions({
    queryKey: ['imports', id, 'rows', outcome],
    queryFn: ({ pageParam }) =>
      call(endpoints.listImportRows, { params: { id }, query: { outcome, after: pageParam, limit: 50 } }),
    initialPageParam: undefined as string | undefined,
    getNextPageParam: (page) => page.next ?? undefined,
    placeholderData: keepPreviousData,
  })

export const sendImport = (file: File, sheet?: string) => upload(endpoints.sendImport, file, { query: { sheet } })
export const checkImport = (id: string, plan: ImportPlan) => call(endpoints.checkImport, { params: { id }, body: plan })
export const storeImport = (id: string, leaveOut: boolean) =>
  call(endpoints.storeImport, { params: { id }, body: { leaveOut } })
export const cancelImport = (id: string) => call(endpoints.cancelImport, { params: { id } })
export const removeImport = (id: string) => call(endpoints.removeImport, { params: { id } })

export const refusedAddress = (id: string): string => addressOf(endpoints.getRefusedRows, { params: { id } })
export const templateAddress = (kind: ImportKind, format: 'csv' | 'xlsx' | 'json', filled?: 'yes'): string =>
  addressOf(endpoints.getImportTemplate, { params: { kind }, query: { format, filled } })

/** A version of a standard, as it is saved, as a file that another unit takes in. */
export const standardFileAddress = (id: string, format: 'csv' | 'xlsx' | 'json'): string =>
  addressOf(endpoints.getImportTemplate, { params: { kind: 'standards' }, query: { format, version: id } })
