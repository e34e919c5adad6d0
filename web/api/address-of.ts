import { withoutIsolates } from '#calendar/isolate.ts'
import type { Endpoint, Input, Optional, Schemas } from '#contract/endpoint.ts'

/** What stands in the address of a request. */
export interface Parts {
  readonly params?: object
  readonly query?: object
}

const isSet = (value: unknown) => value !== undefined && value !== null && value !== ''

/** The address of an operation, its parameters filled in and encoded; of the query what is set. */
export const fillIn = (operation: string, { params = {}, query = {} }: Parts): string => {
  const values = new Map<string, unknown>(Object.entries(params))
  const path = operation
    .slice(operation.indexOf('/'))
    .replace(/:(\w+)/g, (_, name: string) => encodeURIComponent(withoutIsolates(String(values.get(name)))))
  const set = Object.entries(query).filter(([, value]) => isSet(value))
  const search = new URLSearchParams(set.map(([name, value]) => [name, withoutIsolates(String(value))])).toString()
  return search ? `${path}?${search}` : path
}

/** Where a browser gets what an operation answers by itself: a file to save, a stream to listen to. */
export const addressOf = <Of extends Schemas>(
  endpoint: Endpoint<Of>,
  ...[parts]: Optional<Omit<Input<Of>, 'body'>>
): string => fillIn(endpoint, parts ?? {})
