import { dayInZone } from '#calendar/day-in-zone.ts'
import { zonedInstant } from '#calendar/zoned-instant.ts'
import type { CeremonyBody, CeremonyChange, CeremonyDetail } from '#contract/ceremonies/ceremonies.ts'
import { clockTime } from '../../words/clock-time.ts'

export interface DraftPost {
  /** Keeps its place on the screen; never stored. */
  key: string
  /** Null: a new post. */
  id: string | null
  title: string
  row: string
  place: string
  certification: string
  arm: string
  /** As typed: "SGT, SSG"; '' is any. */
  grades: string
  minHeightCm: string
  maxHeightCm: string
  /** Who is named stays, as long as the post does. */
  named: string
}

export interface DraftRehearsal {
  key: string
  day: string
  from: string
  to: string
  place: string
}

/** A plan as it is typed: clock times of the unit's zone, numbers as text. */
export interface Draft {
  title: string
  place: string
  unitId: string
  day: string
  report: string
  start: string
  end: string
  minutesBefore: string
  minutesAfter: string
  notes: string
  rehearsals: DraftRehearsal[]
  posts: DraftPost[]
}

let made = 0
const nextKey = (): string => `new ${++made}`

export const blankPost = (row: string, place: string, certification: string): DraftPost => ({
  key: nextKey(),
  id: null,
  title: '',
  row,
  place,
  certification,
  arm: '',
  grades: '',
  minHeightCm: '',
  maxHeightCm: '',
  named: '',
})

export const blankRehearsal = (day: string): DraftRehearsal => ({ key: nextKey(), day, from: '', to: '', place: '' })

export const blankDraft = (unitId: string, certification: string): Draft => ({
  title: '',
  place: '',
  unitId,
  day: '',
  report: '',
  start: '',
  end: '',
  minutesBefore: '0',
  minutesAfter: '0',
  notes: '',
  rehearsals: [],
  posts: [blankPost('1', '1', certification)],
})

const text = (number: number | null): string => (number === null ? '' : String(number))

/** A ceremony as a draft; as a copy it has no day, no rehearsals, new posts and nobody named. */
export const draftOf = (ceremony: CeremonyDetail, zone: string, isCopy = false): Draft => {
  const time = (instant: string) => clockTime(instant, zone)
  return {
    title: ceremony.title,
    place: ceremony.place,
    unitId: ceremony.unitId,
    day: isCopy ? '' : ceremony.day,
    report: time(ceremony.reportsAt),
    start: time(ceremony.startsAt),
    end: time(ceremony.endsAt),
    minutesBefore: String(ceremony.minutesBefore),
    minutesAfter: String(ceremony.minutesAfter),
    notes: ceremony.notes,
    rehearsals: isCopy
      ? []
      : ceremony.rehearsals.map(({ startsAt, endsAt, place }) => ({
          key: nextKey(),
          day: dayInZone(startsAt, zone),
          from: time(startsAt),
          to: time(endsAt),
          place,
        })),
    posts: ceremony.formation.map((post) => ({
      key: nextKey(),
      id: isCopy ? null : post.id,
      title: post.title,
      row: String(post.row),
      place: String(post.place),
      certification: post.certification,
      arm: post.arm ?? '',
      grades: post.grades?.join(', ') ?? '',
      minHeightCm: text(post.minHeightCm),
      maxHeightCm: text(post.maxHeightCm),
      named: isCopy || !post.soldier ? '' : `${post.soldier.grade} ${post.soldier.name}`,
    })),
  }
}

/** An end by the clock that is not after the start is on the next day. */
const after = (day: string, from: string, to: string): string => {
  if (to > from) return day
  const next = new Date(`${day}T00:00:00Z`)
  next.setUTCDate(next.getUTCDate() + 1)
  return next.toISOString().slice(0, 10)
}

const number = (typed: string): number | null => (typed.trim() === '' ? null : Number(typed))

const postOf = (post: DraftPost) => ({
  title: post.title,
  row: Number(post.row),
  place: Number(post.place),
  certification: post.certification,
  arm: post.arm || null,
  grades: post.grades.trim() === '' ? null : post.grades.split(/[\s,;]+/).filter(Boolean),
  minHeightCm: number(post.minHeightCm),
  maxHeightCm: number(post.maxHeightCm),
})

const planOf = (draft: Draft, zone: string) => {
  const { title, place, unitId, day, notes } = draft
  return {
    title,
    place,
    unitId,
    notes,
    reportsAt: zonedInstant(day, draft.report || draft.start, zone),
    startsAt: zonedInstant(day, draft.start, zone),
    endsAt: zonedInstant(after(day, draft.start, draft.end), draft.end, zone),
    minutesBefore: Number(draft.minutesBefore),
    minutesAfter: Number(draft.minutesAfter),
    rehearsals: draft.rehearsals.map((one) => ({
      startsAt: zonedInstant(one.day, one.from, zone),
      endsAt: zonedInstant(after(one.day, one.from, one.to), one.to, zone),
      place: one.place,
    })),
  }
}

/** What is sent for a new ceremony. Days and times must be filled in. */
export const bodyOf = (draft: Draft, zone: string): CeremonyBody => ({
  ...planOf(draft, zone),
  posts: draft.posts.map((post) => ({ ...postOf(post), soldierId: null })),
  alternates: [],
})

/** What is sent to change one: who is named to a post that stays remains so. */
export const changeOf = (draft: Draft, zone: string, version: number): CeremonyChange => ({
  ...planOf(draft, zone),
  version,
  posts: draft.posts.map((post) => ({ ...postOf(post), id: post.id })),
})

/** A post like another at the next free place of its rank; "Sentry 1" is followed by "Sentry 2". */
export const postLike = (post: DraftPost, posts: readonly DraftPost[]): DraftPost => {
  const places = posts.filter(({ row }) => row === post.row).map(({ place }) => Number(place))
  const title = post.title.replace(/\d+$/, (last) => String(Number(last) + 1))
  return { ...post, key: nextKey(), id: null, named: '', title, place: String(Math.max(0, ...places) + 1) }
}
