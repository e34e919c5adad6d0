import { useCallback } from 'react'
import { useSearchParams } from 'wouter'

/**
 * The filters of a page, kept in its address, so that a link carries them and Back undoes the last one.
 * Gives the values by name ('' where one is not set) and a setter; an empty value leaves the address.
 */
export const useFilters = <Name extends string>(names: readonly Name[]) => {
  const [params, setParams] = useSearchParams()
  const values = Object.fromEntries(names.map((name) => [name, params.get(name) ?? ''])) as Record<Name, string>
  const set = useCallback(
    (changes: Partial<Record<Name, string>>) =>
      setParams((before) => {
        const after = new URLSearchParams(before)
        for (const [name, value] of Object.entries(changes) as [Name, string | undefined][]) {
          if (value) after.set(name, value)
          else after.delete(name)
        }
        return after
      }),
    [setParams],
  )
  return [values, set] as const
}
