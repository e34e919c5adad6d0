import { describe, expect, it } from 'vitest'
import {
  formatBestChange,
  formatBound,
  formatPlaced,
  formatWhetherBest,
  withDays,
} from '../../../web/domain/plans/format-plan.ts'

const TODAY = '2026-06-15'
const change = { testDayId: null, on: null, standard: null, by: null, sponsorName: null }
const title = () => 'Sword and saber, standing manual'

describe('a plan in words', () => {
  it.each([
    [{ open: 0, inTime: 0 }, 'No open retest waits for a slot.'],
    [{ open: 1, inTime: 1 }, 'The one open retest can be placed by its due day.'],
    [{ open: 1, inTime: 0 }, 'No open retest can be placed by its due day: 1 waits for a slot.'],
    [{ open: 31, inTime: 31 }, 'All 31 open retests can be placed by their due day.'],
    [{ open: 31, inTime: 27 }, '27 of 31 open retests can be placed by their due day.'],
    [{ open: 31, inTime: 4 }, '4 of 31 open retests can be placed by their due day.'],
    [{ open: 6, inTime: 6 }, 'All six open retests can be placed by their due day.'],
    [{ open: 6, inTime: 4 }, 'Four of six open retests can be placed by their due day.'],
  ])('says of %j: %s', (counts, sentence) => expect(formatPlaced(counts, 'retest')).toBe(sentence))

  it('says whether another plan could be better', () => {
    const proved = { name: 'placed', value: 4, bound: 4 }
    expect(formatWhetherBest([proved], 'ready')).toMatch(/^No other plan/)
    expect(formatWhetherBest([proved, { name: 'days after due', value: 9, bound: 7 }], 'stopped')).toBe(
      'The search was stopped. Days after the due day, all together: this plan has 9; at best it would be 7.',
    )
    expect(formatBound({ name: 'days after due', value: 9, bound: 7 })).toBe('could be 7 at best')
  })

  it.each([
    [
      { ...change, change: 'more slots' as const, places: 2, on: '2026-06-22' },
      'Two more slots on Monday 22 June would place up to two more.',
    ],
    [
      { ...change, change: 'test day' as const, places: 3, standard: 'sword', by: '2026-07-02' },
      'Another test day for Sword and saber, standing manual by Thursday 2 July would place up to three more.',
    ],
    [
      { ...change, change: 'sponsor there' as const, places: 1, sponsorName: 'Ashford, Kim' },
      'If Ashford, Kim were there instead of absent, that would place up to one more.',
    ],
    [
      { ...change, change: 'another grader' as const, places: 4 },
      'Another grader on these days would place up to four more.',
    ],
  ])('says what to change: %j', (one, sentence) => expect(formatBestChange(one, title, TODAY)).toBe(sentence))

  it('says days as people do', () => {
    expect(withDays('Not before 2026-07-20.', TODAY)).toBe('Not before Monday 20 July.')
  })
})
