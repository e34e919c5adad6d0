import { describe, expect, it } from 'vitest'
import { backupWarning } from '../../../../server/domain/backup/backup-warning.ts'

const day = (date: number, hour = 2) => new Date(Date.UTC(2026, 5, date, hour, 30))
const nightly = [day(15), day(14)]

describe('backupWarning', () => {
  it.each([
    ['made when it was due', day(15), null, nightly, null],
    ['missed once', day(14), null, nightly, null],
    ['missed twice', day(13), null, nightly, 'overdue'],
    ['failed since the last good one', day(14), day(15), nightly, 'failed'],
    ['failed before the last good one', day(15), day(14), nightly, null],
    ['failed with none ever', null, day(15), nightly, 'failed'],
    ['none ever', null, null, nightly, 'none'],
    ['none ever, and none was due', null, null, [], 'none'],
    ['no schedule', day(1), null, null, 'not scheduled'],
    ['no schedule, and one by hand failed', day(1), day(2), null, 'failed'],
  ])('%s', (_, lastGoodAt, lastFailureAt, lastDue, expected) => {
    expect(backupWarning({ lastGoodAt, lastFailureAt, lastDue })).toBe(expected)
  })
})
