import { describe, expect, it } from 'vitest'
import { nameSkeleton } from '../../../../server/domain/access/name-skeleton.ts'

describe('names that look alike', () => {
  it.each([
    ['of Cyrillic letters', 'office', 'оffісе'],
    ['of full width', 'office', 'ｏｆｆｉｃｅ'],
    ['with a ligature', 'office', 'oﬃce'],
    ['with a sign nobody sees', 'office', 'off\u200bice'],
    ['with a zero', 'commander', 'c0mmander'],
    ['with r and n', 'admin', 'adrnin'],
    ['with a one', 'leader', '1eader'],
    ['with a dotless i', 'admin', 'admın'],
    // The examples of UTS 39, section 4, "Whole-Script Confusables" and "Mixed-Script Confusables".
    ['of one other script', 'scope', 'ѕсоре'],
    ['of two scripts', 'paypal', 'pаypаl'],
    ['with Cyrillic that only looks alike as a capital', 'hannah', 'наnnан'],
    ['of Cherokee', 'daw', 'ꭰꭺꮃ'],
    ['of mathematical letters', 'grader', '𝔤𝔯𝔞𝔡𝔢𝔯'],
    ['of Armenian', 'sponsor', 'ѕроոѕor'],
    ['with an accent', 'sponsor', 'spónsor'],
  ])('%s have one skeleton', (_, one, other) => {
    expect(nameSkeleton(other)).toBe(nameSkeleton(one))
  })

  it('and others do not', () => {
    const names = [
      'office',
      'deputy',
      'leader',
      'sponsor',
      'grader',
      'grader2',
      'commander',
      'soldier',
      'Иванов',
      'Петров',
    ]
    expect(new Set(names.map(nameSkeleton)).size).toBe(names.length)
  })
})
