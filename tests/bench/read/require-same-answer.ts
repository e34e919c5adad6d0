import type { HttpCaller } from '../measure/http-caller.ts'
import type { Question } from './questions.ts'

const TIMES = 5

/** Throws where the hand-written statement and the product answer a question differently: then there is nothing to compare. */
export async function requireSameAnswer(product: HttpCaller, bare: HttpCaller, question: Question): Promise<void> {
  for (let n = 0; n < TIMES; n++) {
    const path = question.path(n)
    const [ours, byHand] = await Promise.all([product.get(path), bare.get(path)])
    if (!question.isSame(JSON.parse(ours), JSON.parse(byHand))) {
      throw new Error(`The hand-written answer to ${path} is not the product's:\n${ours}\n${byHand}`)
    }
  }
}
