import { expect, it } from 'vitest'
import { sayVoids } from '../../../web/features/findings/say-voids.ts'

const grader = (voids: number, afterFailure: number) => ({
  graderId: '00000000-0000-4000-8000-000000000001',
  name: 'Ashford, Ines',
  grade: 'SGT',
  voids,
  afterFailure,
})

it('says how many tests were void and how many of them late', () => {
  expect(sayVoids([])).toBe('No test was made void.')
  expect(sayVoids([grader(1, 0)])).toMatch(/^(1|One) test was made void, none of them after/)
  expect(sayVoids([grader(2, 1), grader(3, 0)])).toMatch(/^(5|Five) tests were made void, 1 of them after/)
})
