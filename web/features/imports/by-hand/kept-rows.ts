import { type QueryClient, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import type { HandRows } from './hand-rows.ts'

/** Rows that are being written, and the labels they were written under. */
interface KeptRows {
  readonly of: string
  readonly rows: HandRows
}

const KEY = ['rows-by-hand']

/** What is written stays while other pages are opened, until it is sent or somebody signs out; on no disk, for it names people. */
export function useKeptRows(): [KeptRows | null, (kept: KeptRows) => void] {
  const client = useQueryClient()
  const [kept, setKept] = useState(() => client.getQueryData<KeptRows>(KEY) ?? null)
  return [
    kept,
    (changed) => {
      client.setQueryDefaults(KEY, { gcTime: Number.POSITIVE_INFINITY })
      client.setQueryData(KEY, changed)
      setKept(changed)
    },
  ]
}

export const dropKeptRows = (client: QueryClient): void => client.removeQueries({ queryKey: KEY })
