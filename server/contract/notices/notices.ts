import { z } from 'zod'
import { Code, Day, Instant, Page, page, Uuid } from '../common.ts'

export const NoticeKind = z
  .enum([
    'booked',
    'moved',
    'cancelled',
    'day called off',
    'sheet entered',
    'sheets taken in',
    'not needed',
    'needed again',
    'sheet held',
    'sheet counted',
    'sheet rejected',
    'amendment proposed',
    'amendment refused',
    'sheet amended',
    'appealed',
    'appeal upheld',
    'appeal denied',
    'due day moved',
    'sponsor ended',
    'graders differ',
    'sheet arrived late',
    'soldier asked for',
    'ask answered',
    'award waiting',
    'award approved',
    'award refused',
    'decision taken back',
    'award extended',
    'extension taken back',
  ])
  .meta({ id: 'NoticeKind' })

/** Word that something happened to a candidate in scope. */
export const Notice = z
  .object({
    id: Uuid,
    at: Instant,
    kind: NoticeKind,
    toOffice: z.boolean().describe('To the training office rather than to the person.'),
    toLeaders: z.boolean().describe('To whoever leads the candidate’s unit.'),
    toCommanders: z.boolean().describe('To the commanders above the candidate.'),
    aboutId: Uuid.nullable(),
    aboutName: z.string().nullable(),
    isSelf: z.boolean().describe('It is about whoever reads it.'),
    testDayId: Uuid.nullable(),
    place: z.string().nullable(),
    sheetId: Uuid.nullable(),
    ask: z
      .object({
        ceremonyId: Uuid,
        title: z.string(),
        post: z.string(),
        unitName: z.string().describe('The unit asked.'),
        answer: z.enum(['yes', 'no', 'taken back']).nullable(),
        word: z.string(),
      })
      .nullable()
      .describe('A unit was asked for a soldier for a post of a ceremony.'),
    standard: Code.nullable(),
    certification: Code.nullable(),
    day: Day.nullable(),
    startsAt: Instant.nullable(),
    read: z.boolean(),
    over: z.boolean().describe('What it says is done, undone or past.'),
  })
  .meta({ id: 'Notice' })

export const NoticePage = page(Notice)
export const UnreadNotices = z.object({ unread: z.int() }).meta({ id: 'UnreadNotices' })
export const ReadBody = z
  .strictObject({ ids: z.array(Uuid).min(1).max(500).optional().describe('Left out: all of them.') })
  .meta({ id: 'ReadBody' })

export const NoticeQuery = z.strictObject({ ...Page, unread: z.enum(['true', 'false']).default('false') })

export type Notice = z.infer<typeof Notice>
export type NoticeKind = z.infer<typeof NoticeKind>
