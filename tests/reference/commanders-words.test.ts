import { describe, expect, it } from 'vitest'
import { certificationSpans } from '../../server/domain/certification/spans.ts'
import { certificationStatus } from '../../server/domain/certification/status.ts'
import type { Attempt, Certification, History, Terms } from '../../server/domain/certification/types.ts'
import { WORDS_CASES, type WordsCase } from '../cases/commanders-words.ts'
import { attemptNumbers } from '../support/attempt-numbers.ts'
import { walk } from '../support/walk.ts'
import { standingByTheLetter } from '../unit/domain/certification/standing-by-the-letter.ts'

const toCase = ({ standards = ['standing'], approval = 'none', windowDays = 90, ...one }: WordsCase) => {
  const terms: Terms = {
    effectiveFrom: '2020-01-01',
    sequence: 'any',
    windowDays,
    validityMonths: 12,
    waitDays: 7,
    dueDays: 30,
    reviewAfter: 3,
    approval,
    extensionDays: 60,
  }
  const certification: Certification = {
    code: 'sword',
    standards,
    arms: [],
    terms: one.later ? [terms, { ...terms, effectiveFrom: one.later[0], approval: one.later[1] }] : [terms],
  }
  const attempts = Object.entries(one.sheets).map(([id, text]): Attempt => {
    const [outcome, standard, day] = text.split(' ') as [Attempt['outcome'], string, string]
    return { id, standard, version: 1, arm: null, finishedAt: Date.parse(day), day, outcome }
  })
  const history: History = {
    attempts,
    awards: one.carried ?? [],
    withdrawals: one.withdrawals ?? [],
    suspensions: one.suspensions ?? [],
    reviews: [],
    decisions: one.decisions ?? [],
    extensions: one.extensions ?? [],
  }
  return { certification, breaks: [], history }
}

describe("a commander's words, worked out by hand", () => {
  it.each(WORDS_CASES.map((one) => [one.name, one] as const))('%s', (_name, one) => {
    const { certification, breaks, history } = toCase(one)
    const steps = walk(certification, breaks, history)
    const { statuses } = certificationSpans(certification, breaks, history, steps)
    for (const [day, status, awardedOn = null, validThrough = null] of one.expected) {
      const expected = { status, awardedOn, validThrough }
      expect(certificationStatus(certification, breaks, history, day), day).toMatchObject(expected)
      expect(
        standingByTheLetter({ certification, breaks, history }, day).status,
        `${day}, by the letter`,
      ).toMatchObject(expected)
      const span = statuses.find(({ from, through }) => from <= day && (through === null || day <= through))
      if (status === 'no test yet') expect(span, day).toBeUndefined()
      else expect(span?.value, `${day}, in spans`).toMatchObject(expected)
    }
    if (one.attempts) expect(Object.fromEntries(attemptNumbers(steps))).toEqual(one.attempts)
  })
})
