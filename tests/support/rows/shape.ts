/** What values a type allows, as plain data. Others are named by their place in the list that all shapes of a reading are in. */
export type Shape =
  | { readonly is: 'anything' }
  /** Anything but null and what is no object. */
  | { readonly is: 'object' }
  | { readonly is: 'string' | 'number' | 'boolean' | 'bigint' | 'undefined' }
  | { readonly is: 'literal'; readonly value: string | number | boolean | null }
  | { readonly is: 'instance'; readonly of: InstanceName }
  | { readonly is: 'list'; readonly of: number }
  /** So many in this order; after them any number of the rest, where there is one. */
  | { readonly is: 'tuple'; readonly of: readonly number[]; readonly rest: number | null }
  | { readonly is: 'record'; readonly fields: Readonly<Record<string, Field>>; readonly others: number | null }
  | { readonly is: 'one of'; readonly of: readonly number[] }

export interface Field {
  readonly of: number
  readonly isOptional: boolean
}

export const INSTANCES = { Date, Uint8Array } as const

export type InstanceName = keyof typeof INSTANCES
