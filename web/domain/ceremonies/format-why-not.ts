import { dayInZone } from '#calendar/day-in-zone.ts'
import type { WhyNot } from '#contract/ceremonies/manning.ts'
import { formatDay } from '../../words/format-day.ts'
import { listed } from '../../words/format-number.ts'
import { formatTime } from '../../words/format-time.ts'
import { unitZone } from '../../words/unit-zone.ts'

type Duty = Extract<WhyNot, { reason: 'other duty' }>['kind']

const AWAY: Record<string, string> = {
  leave: 'on leave',
  course: 'on a course',
  'duty elsewhere': 'on duty elsewhere',
  'not available': 'not available',
}

const BUSY: Record<Duty, string> = {
  ceremony: 'at another ceremony',
  rehearsal: 'at another rehearsal',
  alternate: 'alternate elsewhere',
  test: 'being tested',
  grading: 'grading',
}

/** A reason in a word or two, for a list. */
export const shortWhyNot = (why: WhyNot): string => {
  if (why.reason === 'absent') return AWAY[why.kind] ?? 'absent'
  if (why.reason === 'other duty') return BUSY[why.kind]
  return why.reason
}

export interface WhyNotWords {
  today: string
  /** IANA zone of the unit; null: of this device. */
  zone: string | null
  standardTitle: (code: string) => string
}

/** A reason with what is behind it: "not certified (part way): Marching manual still to pass". */
export const formatWhyNot = (why: WhyNot, { today, zone, standardTitle }: WhyNotWords): string => {
  const day = (text: string) => formatDay(text, today)
  switch (why.reason) {
    case 'not in strength':
      return 'not on strength that day'
    case 'not certified': {
      if (why.validThrough && why.status === 'lapsed') {
        return `${why.validThrough < today ? 'lapsed' : 'lapses'} after ${day(why.validThrough)}`
      }
      if (why.status === 'awaiting approval') return 'waiting for approval by the unit’s commander'
      return `not certified (${why.status}): ${listed(why.missing.map(standardTitle))} still to pass`
    }
    case 'test ends too late':
      return `the test of that day ends at ${formatTime(why.finishedAt, zone)}, after those named report`
    case 'outside the height band':
      return `${why.heightCm} cm, outside the height band`
    case 'absent': {
      const until = why.through === null ? 'until further notice' : `through ${day(why.through)}`
      return `${shortWhyNot(why)} from ${day(why.from)} ${until}${why.at === 'rehearsal' ? ', when there is a rehearsal' : ''}`
    }
    case 'other duty': {
      const from = formatTime(why.startsAt, zone)
      const on = day(dayInZone(why.startsAt, zone ?? unitZone()))
      return `${shortWhyNot(why)}${why.title ? ` (${why.title})` : ''}, ${on}, ${from} to ${formatTime(why.endsAt, zone)}`
    }
    default:
      return why.reason
  }
}
