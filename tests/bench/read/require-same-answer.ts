import { isDeepStrictEqual } from 'node:util'
import type { HttpCaller } from '../measure/http-caller.ts'
import type { Question } from './questions.ts'

const TIMES = 5

/** Throws where the hand-written statement and the product answer a question differently: then there is nothing to compare. */
export async function requireSameAnswer(product: HttpCaller, bare: HttpCaller, { path }: Question): Promise<void> {
  for (let n = 0; n < TIMES; n++) {
    const [ours, byHand] = await Promise.all([product.get(path(n)), bare.get(path(n))])
    if (!isDeepStrictEqual(JSON.parse(ours), JSON.parse(byHand))) {
      throw new Error(`The hand-written answer to ${path(n)} is not the product's:\n${ours}\n${byHand}`)
    }
  }
}
