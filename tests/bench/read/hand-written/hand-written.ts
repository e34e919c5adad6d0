/** A question answered by one statement that gives the answer as JSON text in its column `answer`. */
export interface HandWritten {
  /** Of the bare route, as the product has it. */
  readonly url: string
  readonly name: string
  readonly text: string
  values(query: Readonly<Record<string, string>>, params: Readonly<Record<string, string>>): unknown[]
}
