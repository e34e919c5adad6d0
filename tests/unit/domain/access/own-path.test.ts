import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { accountName } from '../../../../server/domain/access/account-name.ts'
import { ownPath } from '../../../../server/domain/access/own-path.ts'

const OURS = 'https://review.example.org'

describe('where to go on our own pages', () => {
  it.each(['/', '/retests?unitId=x', '/people/1#top', '/apiary', '/a%2F%2Fb'])('%s stays', (path) => {
    expect(ownPath(path)).toBe(path)
  })

  it('leads a browser nowhere else, whatever is asked', () => {
    const piece = fc.constantFrom(
      '/',
      '\\',
      '//',
      '.',
      '..',
      '\t',
      '\n',
      '@',
      ':',
      'evil.example',
      'http',
      '?',
      '#',
      '%2f',
      'api',
      ' ',
    )
    const asked = fc.oneof(
      fc.string(),
      fc.array(piece, { maxLength: 8 }).map((parts) => parts.join('')),
    )
    fc.assert(
      fc.property(asked, (text) => {
        const path = ownPath(text)
        const there = new URL(path, `${OURS}/sign-in`)
        expect(there.origin).toBe(OURS)
        expect(there.pathname).not.toMatch(/^\/\/|^\/api(\/|$)/)
        // What it comes to is what a browser makes of it.
        expect(ownPath(path)).toBe(path)
      }),
      { seed: 20261130, numRuns: 3000 },
    )
  })
})

it.each<[string | null, string | null]>([
  ['ada', 'ada'],
  [' ada ', 'ada'],
  ['e\u0301', '\u00e9'],
  ['a\u200bda', null],
  ['a\nb', null],
  ['a\u0000', null],
  ['\ud800', null],
  ['', null],
  [null, null],
  ['a'.repeat(101), null],
])('%j as the name of an account', (text, name) => {
  expect(accountName(text)).toBe(name)
})
