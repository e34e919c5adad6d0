import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { namePattern } from '../../../server/domain/people/name-pattern.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'

let test: TestApp
beforeAll(async () => {
  test = await buildTestApp()
})
afterAll(() => test.close())

const literal = (text: string) => `'${text.replaceAll("'", "''")}'`
const finds = async (words: string[], text: string): Promise<boolean> => {
  const [row] = await test.sql<{ found: boolean }>(
    `SELECT ${literal(text)} ~* ${literal(namePattern(words)!)} AS found`,
  )
  return row!.found
}

describe('the pattern of names, as PostgreSQL reads it', () => {
  it('finds a name that stands by itself, whatever the case and what is around it', async () => {
    for (const text of ['Lee', 'saw LEE.', '"lee"', 'SGT Lee, Ann', 'x\nLee\ny'])
      expect(await finds(['Lee'], text), text).toBe(true)
    for (const text of ['Leeward', 'sleeve', 'Le e', '']) expect(await finds(['Lee'], text), text).toBe(false)
  })

  it('takes names and numbers by the letter', async () => {
    for (const word of ['A.B', 'x*', '(7)', 'a|b', 'c\\d', "O'Neill", 'Ødegård', '[z]', '^$']) {
      expect(await finds([word], `met ${word} there`), word).toBe(true)
      expect(await finds([word], 'met nobody there'), word).toBe(false)
    }
    expect(await finds(['A.B'], 'AxB')).toBe(false)
    expect(await finds(['1001', 'Lee'], 'number 1001')).toBe(true)
    expect(namePattern(['', ' '])).toBeNull()
  })
})
