import type { SheetBody } from '../../server/contract/sheets/sheets.ts'
import { addDays } from '../../server/domain/calendar/plain-date.ts'
import { instantInZone } from '../../server/domain/calendar/zoned-instant.ts'
import type { PlannedAccount, PlannedNote } from './plan.ts'
import type { Program } from './program/program.ts'
import type { Random } from './random.ts'

const WRITTEN_AT = 18 * 60
const MOST_MEASURES = 3
const TEXTS = [
  'By the numbers first, then at cadence. Better towards the end.',
  'Slow with the wrist locked; the tip drifts when it goes fast.',
  'Ten clean in a row before we stopped.',
  'Again in front of the mirror. Eyes stay up now.',
  'Rushed after the preparatory command; drill the pause.',
] as const

/** After each of their candidates' failed tests the sponsor drills what was NO-GO, and says so, while they sponsor them. */
export function planNotes(program: Program, random: Random, accounts: readonly PlannedAccount[]): PlannedNote[] {
  const sponsor = accounts.find(({ role }) => role === 'sponsor')?.soldier
  const { events, people, today, timeZone } = program
  return events.flatMap((event): PlannedNote[] => {
    if (event.kind !== 'sheet' || event.body.purpose !== 'test' || event.body.secondOf !== null) return []
    const measures = failed(event.body).slice(0, MOST_MEASURES)
    const on = addDays(event.body.finishedAt.slice(0, 10), random.integer(1, 6))
    const text = random.pick(TEXTS)
    const coached = people
      .find(({ key }) => key === event.body.candidateId)
      ?.coachings.some(({ sponsor: { key }, from, to }) => key === sponsor && from <= on && (to === null || on <= to))
    if (!coached || measures.length === 0 || on >= today) return []
    const { standard, candidateId: candidate } = event.body
    return [{ at: instantInZone(on, WRITTEN_AT, timeZone), candidate, body: { on, standard, measures, text } }]
  })
}

/** Minors with two trials incorrect as marked. */
const failed = ({ minors }: SheetBody): string[] =>
  minors.filter(({ trials }) => trials.filter((mark) => mark === 'incorrect').length > 1).map(({ code }) => code)
