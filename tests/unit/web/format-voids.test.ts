import { expect, it } from 'vitest'
import { formatVoids } from '../../../web/features/findings/format-voids.ts'

const grader = (voids: number, afterFailure: number) => ({
  graderId: '00000000-0000-4000-8000-000000000001',
  name: 'Ashford, Ines',
  grade: 'SGT',
  voids,
  afterFailure,
})

it('says how many tests were void and how many of them late', () => {
  expect(formatVoids([])).toBe('No test was made void.')
  expect(formatVoids([grader(1, 0)])).toMatch(/^(1|One) test was made void, none of them after/)
  expect(formatVoids([grader(2, 1), grader(3, 0)])).toMatch(/^(5|Five) tests were made void, 1 of them after/)
})
