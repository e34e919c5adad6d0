import type { z } from 'zod'

/** What an operation takes and answers, each by the type of its schema, as in `typeof SoldierPage`. Left out: there is none. */
export interface Schemas {
  /** Of the parts of the path that are named with a colon. */
  readonly params?: z.ZodType
  readonly query?: z.ZodType
  readonly body?: z.ZodType
  /** Of a success; of several kinds, one or another. */
  readonly answer?: z.ZodType
}

export type Method = 'GET' | 'POST' | 'PUT' | 'PATCH' | 'DELETE'

declare const SCHEMAS: unique symbol

/**
 * An operation of the API: its method and path, and by their types the schemas of what goes in and comes out. The server
 * registers it by `route`, the browser calls it by `call`. At run time it is a text and carries no schema into the browser.
 */
export type Endpoint<Of extends Schemas = Record<never, never>> = `${Method} /api/${string}` & {
  readonly [SCHEMAS]: Of
}

/** A word of a query may be any text: pages take it from their own address, and the server refuses what it does not know. */
type Words<Value> = Value extends string ? string : Value

type Query<Schema extends z.ZodType> = { [Name in keyof z.input<Schema>]: Words<z.input<Schema>[Name]> }

/** A part of what a caller gives: left out where nothing of it is needed. */
type Given<Name extends string, Value> =
  Record<never, never> extends Value ? { readonly [Key in Name]?: Value } : { readonly [Key in Name]: Value }

/** What a caller gives an operation. */
export type Input<Of extends Schemas> = (Of['params'] extends z.ZodType
  ? Given<'params', z.input<Of['params']>>
  : unknown) &
  (Of['query'] extends z.ZodType ? Given<'query', Query<Of['query']>> : unknown) &
  (Of['body'] extends z.ZodType ? Given<'body', z.input<Of['body']>> : unknown)

/** The last argument of a call: left out where it may be empty. */
export type Optional<Value> = Record<never, never> extends Value ? [value?: Value] : [value: Value]

/** What a caller gets from an operation; nothing where it answers 204. */
export type Answer<Of extends Schemas> = Of extends { answer: infer Schema extends z.ZodType }
  ? z.output<Schema>
  : undefined
