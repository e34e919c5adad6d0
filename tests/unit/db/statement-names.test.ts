import { describe, expect, it } from 'vitest'
import { statementNames } from '../../../server/db/statement-names.ts'

describe('names of prepared statements', () => {
  it('are given from the second time on, one a text, always the same', () => {
    const nameOf = statementNames()
    expect([nameOf('SELECT 1'), nameOf('SELECT 2')]).toEqual([undefined, undefined])
    const [one, two] = [nameOf('SELECT 1'), nameOf('SELECT 2')]
    expect(one).toMatch(/^reviewstand_\d+$/)
    expect(two).not.toBe(one)
    expect([nameOf('SELECT 1'), nameOf('SELECT 2')]).toEqual([one, two])
  })

  it('are not given to statements as long as what they store', () => {
    const nameOf = statementNames()
    const long = `INSERT INTO a VALUES ${'(1), '.repeat(10_000)}(1)`
    expect([nameOf(long), nameOf(long)]).toEqual([undefined, undefined])
  })

  it('come to an end, so that a server keeps a bounded number of plans', () => {
    const nameOf = statementNames()
    const twice = Array.from({ length: 5_000 }, (_, index) => `SELECT ${index}`)
    for (const sql of twice) nameOf(sql)
    const names = twice.flatMap((sql) => [nameOf(sql), nameOf(sql)]).filter((name) => name !== undefined)
    expect(new Set(names).size).toBeGreaterThan(0)
    expect(new Set(names).size).toBeLessThanOrEqual(300)
    expect(nameOf(twice.find((sql) => nameOf(sql) !== undefined)!)).toBeDefined()
  })
})
