import { findOpenAsks } from '../../../ceremonies/services/asks/answer-ask.ts'
import { findOutlooks } from '../../../ceremonies/services/manning/find-outlooks.ts'
import { getCoaching } from '../../../coaching/services/get-coaching.ts'
import type { Context } from '../../../context/context.ts'
import type { Coaching, CoachingWarning } from '../../../contract/coaching/coaching.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { addDays, type PlainDate } from '../../../domain/calendar/plain-date.ts'
import { dayInMail, momentInMail } from '../../../domain/mail/day-in-mail.ts'
import type { LetterLine, LetterPart } from '../../../domain/mail/write-letter.ts'
import { findNotices } from '../../../notices/services/read-notices.ts'
import { getReadiness } from '../../../readiness/services/readiness.ts'
import { findRetests } from '../../../readiness/services/retests.ts'
import { findAmendments } from '../../../sheets/services/amendments/find-amendments.ts'
import { findAppeals } from '../../../sheets/services/appeals/appeals.ts'
import { findDuplicates } from '../../../sheets/services/find-duplicates.ts'
import { findSecondGradings } from '../../../sheets/services/find-second-gradings.ts'
import { findSheets } from '../../../sheets/services/find-sheets.ts'
import { findTestDays } from '../../../test-days/services/test-days.ts'
import { noticeLine } from './notice-lines.ts'
import type { Titles } from './titles.ts'

const WEEK_DAYS = 7
/** More lines than these nobody reads on a Monday; the pages have the rest. */
const MOST_LINES = 15
/** More than ever wait at once; beyond it a figure says "or more". */
const MOST_COUNTED = 500
const CEREMONIES_SHOWN = 5
const CANDIDATES_SHOWN = 50

/** For whom and of when a week is written. */
export interface Week {
  readonly context: Context
  readonly actor: Actor
  readonly today: PlainDate
  readonly zone: string
  readonly titles: Titles
}

/** What changed in the last seven days: the notices of that time, read or not. */
export async function changedPart({ context, actor, zone, titles }: Week): Promise<LetterPart> {
  const since = new Date(context.clock().getTime() - WEEK_DAYS * 86_400_000).toISOString()
  const { items, next } = await findNotices(context, actor, { unread: 'false', limit: 200 })
  const fresh = items.filter(({ at }) => at >= since)
  const lines = fresh.slice(0, MOST_LINES).map((notice) => noticeLine(notice, titles, zone))
  const more = fresh.length - lines.length
  const orMore = next !== null && fresh.length === items.length ? ' or more' : ''
  return {
    title: 'What changed in the last week',
    lines: more > 0 ? [...lines, { text: `And ${more}${orMore} other changes.`, path: '/notices' }] : lines,
  }
}

/** The leader's week, by what the leader's desk shows: who is certified, ceremonies that are short, asks, retests. */
export async function leaderPart({ context, actor, today, titles }: Week): Promise<LetterPart> {
  const unitId = actor.unitId ?? undefined
  const [now, before, outlooks, asks, retests] = await Promise.all([
    getReadiness(context, actor, { unitId, limit: 1 }),
    getReadiness(context, actor, { unitId, asOf: addDays(today, -WEEK_DAYS), limit: 1 }),
    findOutlooks(context, actor, { limit: CEREMONIES_SHOWN }),
    findOpenAsks(context, actor),
    findRetests(context, actor, { unitId, limit: MOST_COUNTED }),
  ])
  const certified = new Map([now, before].map((one) => [one, certifiedOf(one.totals)]))
  const lines: LetterLine[] = [...certified.get(now)!].map(([code, { can, all }]) => {
    const then = certified.get(before)!.get(code) ?? { can: 0, all: 0 }
    const change = then.can === can && then.all === all ? 'as a week ago' : `a week ago ${then.can} of ${then.all}`
    return {
      text: `${titles.certification(code)}: ${can} of ${all} required are certified, ${change}.`,
      path: '/stand',
    }
  })
  for (const { ceremony } of outlooks.items) {
    const { id, title, day, posts, filled } = ceremony
    if (filled < posts) {
      const are = posts - filled === 1 ? 'post is' : 'posts are'
      lines.push({
        text: `${title}, ${dayInMail(day)}: ${posts - filled} of ${posts} ${are} not filled.`,
        path: `/ceremonies/${id}`,
      })
    }
  }
  for (const { postTitle, title, day } of asks.items) {
    lines.push({
      text: `Answer: your unit is asked for a soldier: ${postTitle}, ${title}, ${dayInMail(day)}.`,
      path: '/desk/leader',
    })
  }
  return { title: 'Your unit this week', lines: [...lines, ...retestLines(retests.items, today)] }
}

/** By certification, how many of those required to hold it do. */
function certifiedOf(totals: Awaited<ReturnType<typeof getReadiness>>['totals']) {
  const sums = new Map<string, { can: number; all: number }>()
  for (const { certification, status, required, count } of totals) {
    if (!required) continue
    const sum = sums.get(certification) ?? { can: 0, all: 0 }
    sums.set(certification, { can: sum.can + (status === 'certified' ? count : 0), all: sum.all + count })
  }
  return sums
}

function retestLines(
  retests: readonly { readonly due: string; readonly pastDue: boolean; readonly needsReview: boolean }[],
  today: PlainDate,
): LetterLine[] {
  const soon = retests.filter(({ due, pastDue }) => !pastDue && due <= addDays(today, WEEK_DAYS)).length
  return [
    ...counted(
      retests.filter(({ pastDue }) => pastDue).length,
      'retest is past its due day',
      'retests are past their due day',
      '/retests',
    ),
    ...counted(soon, 'retest is due within a week', 'retests are due within a week', '/retests'),
    ...counted(
      retests.filter(({ needsReview }) => needsReview).length,
      'retest needs a review first',
      'retests need a review first',
      '/retests?state=review',
    ),
  ]
}

function counted(count: number, one: string, many: string, path: string): LetterLine[] {
  if (count === 0) return []
  return [{ text: `${count >= MOST_COUNTED ? `${MOST_COUNTED} or more` : count} ${count === 1 ? one : many}.`, path }]
}

/** The office's week, by what the office's desk shows: what waits to be decided, and the test days of the week. */
export async function officePart({ context, actor, today }: Week): Promise<LetterPart> {
  const all = { limit: MOST_COUNTED }
  const [held, amendments, appeals, differing, twice, retests, days] = await Promise.all([
    findSheets(context, actor, { state: 'held', ...all }),
    findAmendments(context, actor, { open: 'true', ...all }),
    findAppeals(context, actor, { open: 'true', ...all }),
    findSecondGradings(context, actor, { differing: 'true', ...all }),
    findDuplicates(context, actor, all),
    findRetests(context, actor, all),
    findTestDays(context, actor, { from: today, through: addDays(today, WEEK_DAYS), ...all }),
  ])
  const coming = days.items.filter(({ calledOff }) => !calledOff).toReversed()
  return {
    title: 'For the training office this week',
    lines: [
      ...counted(
        held.items.length,
        'sheet is held; until it is decided it counts for nothing',
        'sheets are held; until they are decided they count for nothing',
        '/held',
      ),
      ...counted(
        amendments.items.length,
        'amendment waits for a second person',
        'amendments wait for a second person',
        '/contested',
      ),
      ...counted(appeals.items.length, 'appeal is open', 'appeals are open', '/contested'),
      ...counted(
        differing.items.length,
        'attempt on which two graders differ',
        'attempts on which two graders differ',
        '/twice-graded',
      ),
      ...counted(
        twice.items.filter(({ isProposed }) => !isProposed).length,
        'test may have been sent twice',
        'tests may have been sent twice',
        '/twice-graded',
      ),
      ...retestLines(retests.items, today),
      ...coming.map(({ id, on, place, freeSlots }) => ({
        text: `Test day ${dayInMail(on)}${place ? `, ${place}` : ''}: ${freeSlots} ${freeSlots === 1 ? 'slot is' : 'slots are'} free.`,
        path: `/test-days/${id}`,
      })),
    ],
  }
}

const WARNINGS: Record<CoachingWarning['kind'], (on: string) => string> = {
  'retest-past-due': (on) => `the retest was due by ${on}`,
  'booked-after-due': (on) => `the test is booked after its due day, ${on}`,
  'review-needed': () => 'a review has to come before the retest',
  'sponsor-not-certified': () => 'you are not certified on the day of the test',
  'sponsorship-ends': (on) => `your time as sponsor ends on ${on}`,
  'go-ages-out': (on) => `a GO counts until ${on} only`,
  'certification-lapses': (on) => `the certification lapses after ${on}`,
  'nothing-booked': () => 'no test is booked',
}

/** The sponsor's week, by what the sponsor's desk shows: of each candidate the next test, and what there is to see to. */
export async function sponsorPart({ context, actor, zone, titles }: Week): Promise<LetterPart> {
  const { items } = await getCoaching(context, actor, { limit: CANDIDATES_SHOWN })
  return { title: 'Your candidates this week', lines: items.map((one) => candidateLine(one, titles, zone)) }
}

function candidateLine(
  { candidateId, grade, name, ahead: [next], warnings }: Coaching['items'][number],
  titles: Titles,
  zone: string,
): LetterLine {
  const when = next?.booking
    ? momentInMail(next.booking.on, next.booking.startsAt, zone)
    : next?.retest
      ? `due by ${dayInMail(next.retest.due)}`
      : null
  const test = next ? `${titles.standard(next.standard)}${when ? `, ${when}` : ''}` : 'nothing is to be tested'
  const also = [...new Set(warnings.map(({ kind, on }) => WARNINGS[kind](dayInMail(on))))]
  return {
    text: `${grade} ${name}: ${test}.${also.length > 0 ? ` See to: ${also.join('; ')}.` : ''}`,
    path: `/candidates/${candidateId}`,
  }
}
