import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { NoticeKind } from '../../../../server/contract/notices/notices.ts'
import type { Role } from '../../../../server/domain/access/actor.ts'
import { dayInMail, momentInMail } from '../../../../server/domain/mail/day-in-mail.ts'
import { mailKindOf, mailKindsFor, timingOf } from '../../../../server/domain/mail/mail-kinds.ts'
import { isMonday, morningSince, nextMorning } from '../../../../server/domain/mail/mornings.ts'
import { isTooOld, nextTry, serverRestMs } from '../../../../server/domain/mail/next-try.ts'
import { writeLetter } from '../../../../server/domain/mail/write-letter.ts'

const MINUTE = 60_000
const at = (text: string) => Date.parse(text)

describe('the next try', () => {
  it('comes after 1, 5, 15, 60, 180, 360 and 720 minutes, and no more', () => {
    const waits = [1, 2, 3, 4, 5, 6, 7, 8].map((attempts) => nextTry(attempts, 0, 0))
    expect(waits).toEqual([1, 5, 15, 60, 180, 360, 720].map((wait) => wait * MINUTE).concat([null as never]))
  })

  it('comes never three days after the mail was queued', () => {
    const days = (count: number) => count * 24 * 60 * MINUTE
    expect(nextTry(1, days(3), 0)).not.toBeNull()
    expect(nextTry(1, days(3) + 1, 0)).toBeNull()
    expect(isTooOld(days(3), 0)).toBe(false)
  })

  it('leaves a server that is down alone for up to half an hour', () => {
    expect([0, 1, 2, 3, 4, 9, 400].map((failures) => serverRestMs(failures) / MINUTE)).toEqual([
      0, 1, 5, 15, 30, 30, 30,
    ])
  })
})

describe('a morning', () => {
  it('is by the clock on the wall, through summer time and back', () => {
    expect(nextMorning(at('2026-03-28T12:00:00Z'), 6, 'Europe/Berlin')).toEqual({
      day: '2026-03-29',
      at: at('2026-03-29T04:00:00Z'),
    })
    expect(nextMorning(at('2026-10-24T12:00:00Z'), 6, 'Europe/Berlin').at).toBe(at('2026-10-25T05:00:00Z'))
    expect(morningSince(at('2026-03-29T03:59:00Z'), 6, 'Europe/Berlin')).toBeNull()
    expect(morningSince(at('2026-03-29T04:00:00Z'), 6, 'Europe/Berlin')?.day).toBe('2026-03-29')
  })

  it('comes next exactly when it is not there yet', () => {
    const zones = fc.constantFrom('UTC', 'America/New_York', 'Asia/Kolkata', 'Pacific/Auckland', 'Pacific/Apia')
    const moments = fc.integer({ min: at('2020-01-01T00:00:00Z'), max: at('2030-01-01T00:00:00Z') })
    fc.assert(
      fc.property(moments, fc.integer({ min: 0, max: 23 }), zones, (now, hour, zone) => {
        const next = nextMorning(now, hour, zone)
        const since = morningSince(now, hour, zone)
        expect(next.at).toBeGreaterThan(now)
        expect(since === null || (since.at <= now && since.day < next.day)).toBe(true)
        expect(morningSince(next.at, hour, zone)).toEqual(next)
      }),
      { seed: 18, numRuns: 300 },
    )
  })

  it('is a Monday every seventh day', () => {
    expect(['2026-06-15', '2026-06-16', '1970-01-05', '1969-12-29'].map(isMonday)).toEqual([true, false, true, true])
  })
})

describe('what comes', () => {
  it('has a kind for every notice', () => {
    for (const kind of NoticeKind.options) expect(mailKindOf(kind)).toMatch(/^(bookings|held|named|people|awards)$/)
  })

  it('is offered by role, and nothing to who only administers', () => {
    const kinds = (roles: Role[]) => mailKindsFor(roles).map(({ kind }) => kind)
    expect(kinds(['administrator'])).toEqual([])
    expect(kinds(['soldier'])).toEqual(['bookings', 'named', 'awards', 'lapses'])
    expect(kinds(['grader'])).toEqual(['bookings', 'held', 'named', 'awards', 'lapses'])
    expect(kinds(['leader'])).toEqual(['bookings', 'people', 'awards', 'lapses', 'week'])
    expect(kinds(['office'])).toEqual(['bookings', 'held', 'named', 'people', 'lapses', 'week'])
  })

  it('comes as chosen where it is offered, else as usual; a choice that is none counts for nothing', () => {
    expect(timingOf('bookings', ['soldier'], {})).toBe('at once')
    expect(timingOf('bookings', ['soldier'], { bookings: 'never' })).toBe('never')
    expect(timingOf('lapses', ['soldier'], { lapses: 'at once' })).toBe('daily')
    expect(timingOf('held', ['soldier'], { held: 'at once' })).toBe('never')
    expect(timingOf('week', ['sponsor'], {})).toBe('weekly')
  })
})

describe('a letter', () => {
  it('says days with month and year, and times by 24 hours', () => {
    expect(dayInMail('2026-12-05')).toBe('Sat 5 December 2026')
    expect(momentInMail('2026-12-05', '2026-12-05T22:30:00Z', 'Asia/Tokyo')).toBe('Sat 5 December 2026 at 07:30')
    expect(momentInMail('2026-12-05', '2026-12-05T00:05:00Z', 'UTC')).toBe('Sat 5 December 2026 at 00:05')
  })

  it('keeps each text on one line and out of the markup, whatever it is', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 60 }), (text) => {
        const letter = { subject: 'Subject', parts: [{ title: 'Part', lines: [{ text }] }], footer: [] }
        const written = writeLetter(letter, 'https://review.example')
        expect(written.text.trimEnd().split('\n').length).toBe(4)
        expect(written.html.match(/</g)!.length).toBe(
          writeLetter({ ...letter, parts: [{ title: 'Part', lines: [{ text: '' }] }] }, '').html.match(/</g)!.length,
        )
        expect(written.html).not.toMatch(/[\u202a-\u202e\0]/)
      }),
      { seed: 18, numRuns: 120 },
    )
  })
})
