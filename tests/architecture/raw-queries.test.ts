import { expect, it } from 'vitest'
import { knownQueries } from '../support/rows/known-queries.ts'

const { queries, unreadable } = knownQueries()

it('it can be told of every raw query whether its rows are what its type says', () => {
  expect(queries.length).toBeGreaterThan(250)
  expect(unreadable).toEqual([])
})

it('a raw query is known by its text', () => {
  const answers = new Map<string, Set<number>>()
  for (const { text, answer } of queries) answers.set(text, (answers.get(text) ?? new Set()).add(answer))
  const unclear = [...answers].filter(([, each]) => each.size > 1)
  expect(unclear.map(([text]) => queries.filter((query) => query.text === text).map(({ place }) => place))).toEqual([])
})
