import type {
  ContextConfigDefault,
  FastifyBaseLogger,
  FastifySchema,
  RawReplyDefaultExpression,
  RawRequestDefaultExpression,
  RawServerDefault,
  RouteGenericInterface,
  RouteOptions,
} from 'fastify'
import type { ZodTypeProvider } from 'fastify-type-provider-zod'
import type { Endpoint, Method, Schemas } from '../contract/endpoint.ts'
import type { ZodApp } from './routes.ts'

type Part<Of, Key> = Key extends keyof Of ? Of[Key] : undefined

/** The schema given, where it is the one named. */
type Same<Named, Given> = [Given, Named] extends [Named, Given] ? Given : 'not the schema that the endpoint names'

/** The schemas of an endpoint by Fastify's names for them. */
type Named<Of extends Schemas> = { [Key in keyof Of as Key extends 'query' ? 'querystring' : Key]: Of[Key] }

/** What the schemas of a route must be: those its endpoint names, and none where it names none. */
type Paired<Of extends Schemas, Schema extends FastifySchema> = {
  readonly [Key in (keyof Named<Of> | keyof Schema) & ('params' | 'querystring' | 'body')]: Same<
    Part<Named<Of>, Key>,
    Part<Schema, Key>
  >
} & {
  readonly response: {
    readonly [Status in keyof Schema['response'] & (200 | 201 | 202)]: Same<
      Extract<Part<Of, 'answer'>, Schema['response'][Status]>,
      Schema['response'][Status]
    >
  }
}

type Options<Schema extends FastifySchema> = RouteOptions<
  RawServerDefault,
  RawRequestDefaultExpression,
  RawReplyDefaultExpression,
  RouteGenericInterface,
  ContextConfigDefault,
  Schema,
  ZodTypeProvider,
  FastifyBaseLogger
>

/** Registers a route by its endpoint. A schema that is not the one the endpoint names does not compile. */
export function route<Of extends Schemas, Schema extends FastifySchema>(
  app: ZodApp,
  endpoint: Endpoint<Of>,
  options: Omit<Options<Schema>, 'method' | 'url'> & { readonly schema: Schema & Paired<Of, Schema> },
): void {
  const [method, url] = endpoint.split(' ') as [Method, string]
  app.route({ ...options, method, url } as Options<Schema>)
}
