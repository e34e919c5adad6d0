import type { CpuClock } from '../measure/cpu-clock.ts'
import type { HttpCaller } from '../measure/http-caller.ts'
import type { Summary } from '../measure/summary.ts'
import { type Contest, type Contestant, takeTurns } from '../measure/take-turns.ts'
import type { Question } from './questions.ts'
import { requireSameAnswer } from './require-same-answer.ts'

/** A server that is asked, and the clock of its processor time and PostgreSQL's. */
export interface Answerer {
  readonly caller: HttpCaller
  readonly cpu: CpuClock
}

/** A database of one size, with the product and the bare server on it. */
export interface ReadStand {
  readonly product: Answerer
  readonly bare: Answerer
  readonly questions: readonly Question[]
}

export interface TimedRead {
  readonly product: Summary
  readonly byHand: Summary
}

/** How a question was answered at both sizes, and beside it the least that Fastify and pg can do. */
export interface QuestionTimes {
  readonly name: string
  readonly small: TimedRead
  readonly large: TimedRead
  readonly selectOne: Summary
}

/** Times each question on both databases, product and hand-written statement, all in turns. */
export async function timeReads(small: ReadStand, large: ReadStand, contest: Contest): Promise<QuestionTimes[]> {
  const times: QuestionTimes[] = []
  for (const [index, question] of small.questions.entries()) {
    const same = large.questions[index]!
    await requireSameAnswer(small.product.caller, small.bare.caller, question)
    await requireSameAnswer(large.product.caller, large.bare.caller, same)
    const found = await takeTurns(
      {
        smallProduct: asking(small.product, question.path),
        largeProduct: asking(large.product, same.path),
        smallByHand: asking(small.bare, question.path),
        largeByHand: asking(large.bare, same.path),
        selectOne: asking(large.bare, () => '/select-1'),
      },
      contest,
    )
    times.push({
      name: question.name,
      small: { product: found.smallProduct, byHand: found.smallByHand },
      large: { product: found.largeProduct, byHand: found.largeByHand },
      selectOne: found.selectOne,
    })
  }
  return times
}

function asking({ caller, cpu }: Answerer, path: Question['path']): Contestant {
  const call = async (n: number) => {
    await caller.get(path(n))
  }
  return { call, cpu }
}
