import { describe, expect, it } from 'vitest'
import { sayWarning } from '../../../web/domain/coaching/say-warning.ts'

const TODAY = '2026-11-29'
const say = (test: string | null, booked: boolean) =>
  sayWarning(
    {
      kind: 'sponsor-not-certified',
      on: TODAY,
      test,
      booked,
      certification: 'rifle',
      standard: 'rifle',
      sponsorId: null,
    },
    () => 'Rifle, standing manual',
    true,
    TODAY,
  ).what

describe('a sponsor who is not certified', () => {
  it('is told of the test that is booked', () => {
    expect(say('2026-12-02', true)).toBe(
      'You are not certified in Rifle, standing manual as of Sunday 29 November; the test on Wed 2 Dec would be held.',
    )
  })
  it('is not told of a retest that nobody booked as if there were one', () => {
    expect(say(TODAY, false)).toBe(
      'You are not certified in Rifle, standing manual as of Sunday 29 November; a retest today would be held.',
    )
  })
})
