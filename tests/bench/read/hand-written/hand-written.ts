import type pg from 'pg'

type Values = Readonly<Record<string, string>>

/** A question answered past the product: as few statements as it takes, named so that they are planned once. */
export interface HandWritten {
  /** Of the bare route, as the product has it. */
  readonly url: string
  /** Out: the answer as JSON text. */
  answer(pool: pg.Pool, query: Values, params: Values): Promise<string>
}
