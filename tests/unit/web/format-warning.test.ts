import { describe, expect, it } from 'vitest'
import { formatWarning } from '../../../web/domain/coaching/format-warning.ts'

const TODAY = '2026-11-29'
const say = (test: string | null, booked: boolean) =>
  formatWarning(
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

describe('a retest past its due day', () => {
  const past = (test: string | null, booked: boolean) =>
    formatWarning(
      {
        kind: 'retest-past-due',
        on: '2026-11-20',
        test,
        booked,
        certification: 'rifle',
        standard: 'rifle',
        sponsorId: null,
      },
      () => 'Rifle, standing manual',
      false,
      TODAY,
    )
  it('asks for a test day only where none is booked', () => {
    expect(past(null, false).todo).toBe('Ask the training office for the next test day.')
    const { what, todo } = past('2026-12-02', true)
    expect(what).toContain('it is booked for Wed 2 Dec')
    expect(todo).not.toContain('next test day')
  })
})
