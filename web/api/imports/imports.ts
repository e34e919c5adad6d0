import { infiniteQueryOptions, keepPreviousData, queryOptions } from '@tanstack/react-query'
import type {
  Import,
  ImportColumns,
  ImportKind,
  ImportPage,
  ImportPlan,
  ImportRowPage,
  RowOutcome,
} from '#contract/imports/imports.ts'
import { fileAddress, get, remove, send, upload } from '../client.ts'

const GLANCE_MILLISECONDS = 700

/** Whether a server is at work on a file. */
export const isUnderWay = ({ state }: Pick<Import, 'state'>): boolean => state === 'checking' || state === 'storing'

/** The files one has sent, the latest first. */
export const importsQuery = queryOptions({
  queryKey: ['imports'],
  queryFn: () => get<typeof ImportPage>('/imports', { limit: 20 }),
})

/** A file and how far it has come; asked again while it is worked on. */
export const importQuery = (id: string) =>
  queryOptions({
    queryKey: ['imports', id],
    queryFn: () => get<typeof Import>(`/imports/${id}`),
    refetchInterval: ({ state: { data } }) => (data && isUnderWay(data) ? GLANCE_MILLISECONDS : false),
  })

/** What its columns may be taken for; `mapping`: as chosen so far. */
export const importColumnsQuery = (id: string, kind: ImportKind, mapping?: ImportPlan['mapping']) =>
  queryOptions({
    queryKey: ['imports', id, 'columns', kind, mapping ?? null],
    queryFn: () => send<typeof ImportColumns>('POST', `/imports/${id}/columns`, { kind, ...(mapping && { mapping }) }),
    placeholderData: keepPreviousData,
  })

/** What becomes of its rows, page after page. */
export const importRowsQuery = (id: string, outcome: RowOutcome | undefined) =>
  infiniteQueryOptions({
    queryKey: ['imports', id, 'rows', outcome],
    queryFn: ({ pageParam }) =>
      get<typeof ImportRowPage>(`/imports/${id}/rows`, { outcome, after: pageParam, limit: 50 }),
    initialPageParam: undefined as string | undefined,
    getNextPageParam: (page) => page.next ?? undefined,
    placeholderData: keepPreviousData,
  })

export const sendImport = (file: File, sheet?: string) => upload<typeof Import>('/imports', file, { sheet })
export const checkImport = (id: string, plan: ImportPlan) => send<typeof Import>('POST', `/imports/${id}/check`, plan)
export const storeImport = (id: string, leaveOut: boolean) =>
  send<typeof Import>('POST', `/imports/${id}/store`, { leaveOut })
export const cancelImport = (id: string) => send<typeof Import>('POST', `/imports/${id}/cancel`, {})
export const removeImport = (id: string) => remove(`/imports/${id}`)

export const refusedAddress = (id: string): string => fileAddress(`/imports/${id}/refused`)
export const templateAddress = (kind: ImportKind, format: 'csv' | 'xlsx' | 'json', filled?: 'yes'): string =>
  fileAddress(`/import-templates/${kind}`, { format, filled })

/** A version of a standard, as it is saved, as a file that another unit takes in. */
export const standardFileAddress = (id: string, format: 'csv' | 'xlsx' | 'json'): string =>
  fileAddress('/import-templates/standards', { format, version: id })
