import { randomInt } from 'node:crypto'
import { toActor } from '../../../accounts/services/sessions/to-actor.ts'
import type { Context } from '../../../context/context.ts'
import { toCursor } from '../../../context/cursor.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { dayInZone } from '../../../domain/calendar/day-in-zone.ts'
import { addDays } from '../../../domain/calendar/plain-date.ts'
import { dayInMail } from '../../../domain/mail/day-in-mail.ts'
import { mailKindOf, timingOf } from '../../../domain/mail/mail-kinds.ts'
import type { Letter, LetterLine, LetterPart } from '../../../domain/mail/write-letter.ts'
import { findUnreadAmong } from '../../../notices/services/read-notices.ts'
import { findLapses } from '../../../readiness/services/lapses.ts'
import { type Addressee, replaceCode } from '../../db/mail-addresses.db.ts'
import { noticesOf } from '../../db/mail-notices.db.ts'
import type { ClaimedMail } from '../../db/mail-queue.db.ts'
import { hashCode } from '../hash-code.ts'
import { noticeLine } from './notice-lines.ts'
import { readTitles, type Titles } from './titles.ts'
import { changedPart, leaderPart, officePart, sponsorPart } from './week-parts.ts'

const CODE_HOURS = 24
const LAPSE_DAYS = 30
const LAPSES_SHOWN = 200

/** A letter, and the day up to which it tells of lapses, to be remembered once it is accepted. */
interface Composed {
  readonly letter: Letter
  readonly lapsesThrough?: string
}

/** Who a letter is for: the account as it is now, so that nothing is in it that they may not see now. */
interface Reader {
  readonly context: Context
  readonly actor: Actor
  readonly addressee: Addressee
  readonly titles: Titles
  readonly today: string
}

/** What a mail says, as of now. Null: there is nothing (any more) to say. */
export async function composeLetter(
  context: Context,
  mail: ClaimedMail,
  addressee: Addressee,
): Promise<Composed | null> {
  if (mail.kind === 'code') return { letter: await codeLetter(context, addressee) }
  if (mail.kind === 'address changed') return { letter: CHANGED }
  if (mail.kind === 'test') return { letter: TEST }
  const today = dayInZone(context.clock().getTime(), addressee.zone)
  const reader = { context, actor: toActor(addressee), addressee, titles: await readTitles(context), today }
  if (mail.kind === 'weekly') return weekLetter(reader)
  const news = await newsPart(reader, await noticesOf(context.db, mail.id))
  const lapses = mail.kind === 'daily' && isWanted(reader, 'lapses') ? await lapsesPart(reader) : null
  const parts = [news, ...(lapses ? [lapses.part] : [])].filter(({ lines }) => lines.length > 0)
  if (parts.length === 0) return null
  const subject =
    mail.kind === 'daily'
      ? `Reviewstand: what is new, ${dayInMail(today)}`
      : 'Reviewstand: something changed that concerns you'
  return { letter: { subject, parts, footer: FOOTER }, ...(lapses && { lapsesThrough: lapses.through }) }
}

const isWanted = ({ addressee, actor }: Reader, kind: Parameters<typeof timingOf>[0]): boolean =>
  timingOf(kind, actor.roles, addressee.choices) !== 'never'

async function newsPart(reader: Reader, ids: readonly string[]): Promise<LetterPart> {
  const { context, actor, titles, addressee } = reader
  const notices = ids.length === 0 ? [] : await findUnreadAmong(context, actor, ids)
  const wanted = notices.filter(({ kind }) => isWanted(reader, mailKindOf(kind))).toReversed()
  return { title: 'News', lines: wanted.map((notice) => noticeLine(notice, titles, addressee.zone)) }
}

/** Who is certified and lapses within thirty days, but for those told of before. */
async function lapsesPart({
  context,
  actor,
  addressee,
  titles,
  today,
}: Reader): Promise<{ part: LetterPart; through: string }> {
  const through = addDays(today, LAPSE_DAYS)
  const { toldLapsesThrough } = addressee
  // In order of their last day; a page begins behind a key, and none comes before the empty number.
  const after = toldLapsesThrough === null ? undefined : toCursor([addDays(toldLapsesThrough, 1), '', ''])
  const { items, next } = await findLapses(context, actor, { through, limit: LAPSES_SHOWN, after })
  const lines: LetterLine[] = items.map(({ soldierId, grade, name, certification, validThrough }) => {
    const whose = soldierId === actor.soldierId ? 'Your certification' : `${grade} ${name}`
    const text = `${whose}, ${titles.certification(certification)}: valid through ${dayInMail(validThrough)}.`
    return { text, path: `/candidates/${soldierId}` }
  })
  if (next !== null) lines.push({ text: 'And more, which the page has.', path: '/stand/ahead' })
  return { part: { title: `Lapses within ${LAPSE_DAYS} days unless renewed`, lines }, through }
}

async function weekLetter(reader: Reader): Promise<Composed | null> {
  const { actor, addressee, today } = reader
  if (!isWanted(reader, 'week')) return null
  const week = { ...reader, zone: addressee.zone }
  const parts = await Promise.all([
    ...(actor.roles.includes('office') ? [officePart(week)] : []),
    ...(actor.roles.includes('leader') && actor.unitId !== null ? [leaderPart(week)] : []),
    ...(actor.roles.includes('sponsor') ? [sponsorPart(week)] : []),
    changedPart(week),
  ])
  const filled = parts.filter(({ lines }) => lines.length > 0)
  if (filled.length === 0) return null
  return { letter: { subject: `Reviewstand: your week from ${dayInMail(today)}`, parts: filled, footer: FOOTER } }
}

/** The code is drawn when the mail is written, so that nothing that is kept gives it away; the last mail has the one that counts. */
async function codeLetter({ db, clock }: Context, { accountId, address }: Addressee): Promise<Letter> {
  const code = String(randomInt(100_000_000)).padStart(8, '0')
  await replaceCode(db, accountId, hashCode(code, address), new Date(clock().getTime() + CODE_HOURS * 3_600_000))
  return {
    subject: 'Reviewstand: confirm this address',
    parts: [
      {
        title: '',
        lines: [
          {
            text: 'Somebody gave this address for mail from Reviewstand. If that was you, sign in and type this code under My account, Mail:',
          },
          { text: code },
          {
            text: `It can be used for ${CODE_HOURS} hours. Of several mails like this the latest has the code that counts.`,
          },
          { text: 'My account', path: '/account' },
        ],
      },
    ],
    footer: [{ text: 'If it was not you, do nothing: until the code is typed nothing else is sent here.' }],
  }
}

const FOOTER: readonly LetterLine[] = [
  { text: 'A training record, sent because of your choices at Reviewstand. Every page asks you to sign in.' },
  { text: 'Choose what comes and how often, or stop it', path: '/account' },
]

const CHANGED: Letter = {
  subject: 'Reviewstand: mail no longer comes here',
  parts: [
    {
      title: '',
      lines: [
        {
          text: 'The account that had its mail sent to this address has given another one, or none. Nothing more comes here.',
        },
        { text: 'If you did not do that, change your password and look where you are signed in:' },
        { text: 'My account', path: '/account' },
      ],
    },
  ],
  footer: [{ text: 'An administrator of your unit can help.' }],
}

const TEST: Letter = {
  subject: 'Reviewstand: a test mail',
  parts: [
    {
      title: '',
      lines: [{ text: 'This is the test mail you asked for. Mail from Reviewstand reaches this address.' }],
    },
  ],
  footer: FOOTER,
}
