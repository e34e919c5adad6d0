import { dayInZone } from '#calendar/day-in-zone.ts'
import type { SheetBody } from '#contract/sheets/sheets.ts'
import { clockTime } from '../../../words/clock-time.ts'
import type { Draft } from './draft.ts'

/** A stored sheet opened for amending. `nameOf` gives what a person's field shows. */
export const fromBody = (
  id: string,
  body: SheetBody,
  standardId: string,
  timeZone: string,
  nameOf: (id: string) => string,
): Draft => {
  const person = (one: string | null) => (one === null ? null : { id: one, text: nameOf(one) })
  return {
    id,
    amends: { body, reason: '' },
    purpose: body.purpose,
    standardId,
    arm: body.arm ?? '',
    candidate: person(body.candidateId),
    sponsor: person(body.sponsorId),
    grader: person(body.graderId),
    secondOf: body.secondOf ?? '',
    day: dayInZone(body.startedAt, timeZone),
    start: clockTime(body.startedAt, timeZone),
    finish: clockTime(body.finishedAt, timeZone),
    conditions: body.conditions,
    majors: Object.fromEntries(
      body.majors.map(({ code, mark, atCall, faults }) => [
        code,
        { mark, atCall: atCall == null ? '' : String(atCall), faults },
      ]),
    ),
    minors: Object.fromEntries(
      body.minors.map(({ code, trials, faults, readings }) => [code, { trials, faults, readings }]),
    ),
    holds: body.outcomeOnly ?? (body.void ? 'void' : 'marks'),
    voidKind: body.void?.kind ?? 'weather',
    voidText: body.void?.text ?? '',
    notes: body.notes,
  }
}
