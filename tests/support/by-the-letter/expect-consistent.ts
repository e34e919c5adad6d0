import { expect } from 'vitest'
import type { MeasureFindings, SponsorFindings } from '../../../server/contract/findings/findings.ts'
import { addDays } from '../../../server/domain/calendar/plain-date.ts'
import type { Certification } from '../../../server/domain/certification/types.ts'
import { standingByTheLetter } from '../../unit/domain/certification/standing-by-the-letter.ts'
import type { TestApp } from '../build-test-app.ts'
import { COUNT_SHEETS_ANEW, KEPT_NOT_COUNTED } from '../kept-not-counted.ts'
import { COUNT_ANEW, KEPT_READINESS } from '../kept-readiness.ts'
import { attemptNumber, follow, isConsidered, termsOf } from './attempts-of.ts'
import { historyOf } from './history-of.ts'
import { judgeByTheLetter } from './judge.ts'
import { type Facts, readFacts, type SheetFact } from './read-facts.ts'
import {
  type CountedAttempt,
  countedAttempts,
  type FindingsFilter,
  recountMeasures,
  recountSponsors,
} from './recount.ts'

/**
 * Expects that everything stored that follows from sheets and records is what the rules, read by the letter, make of what
 * was entered: judgements, attempt numbers, standings, retests, awards; and the figures, asked by each of the filters.
 */
export async function expectConsistent(test: TestApp, filters: readonly FindingsFilter[]): Promise<void> {
  const facts = await readFacts(test)
  for (const sheet of facts.sheets) expectJudged(facts, sheet)
  await expectStandings(test, facts)
  await expectAwards(test, facts)
  const attempts = countedAttempts(facts)
  for (const filter of filters) await expectFindings(test, attempts, filter)
  const kept = await test.sql(KEPT_READINESS)
  await test.sql(COUNT_ANEW)
  expect(await test.sql(KEPT_READINESS), 'readiness month by month').toEqual(kept)
  const sheets = await test.sql(KEPT_NOT_COUNTED)
  await test.sql(COUNT_SHEETS_ANEW)
  expect(await test.sql(KEPT_NOT_COUNTED), 'sheets in no figure').toEqual(sheets)
}

function expectJudged(facts: Facts, sheet: SheetFact): void {
  const { id, state, waived, tolerated, body, score } = sheet
  const rules = sheet.violations.map(({ rule }) => rule)
  expect(rules, `violations of ${state} sheet ${id}`).toEqual(judgeByTheLetter(facts, sheet))
  const notForgiven = rules.filter((rule) => !waived.includes(rule) && !tolerated.includes(rule))
  if (state === 'held') expect(notForgiven, `what holds ${id}`).not.toEqual([])
  if (state === 'counted') expect(notForgiven, `what should hold ${id}`).toEqual([])
  const isNumbered =
    body.purpose === 'test' && score.outcome !== 'VOID' && body.secondOf === null && state !== 'rejected'
  const numbers = facts.certifications
    .filter((certification) => isNumbered && isConsidered(certification, body))
    .map((certification) => ({
      certification: certification.code,
      number: attemptNumber(facts, certification, sheet),
    }))
  expect(byCode(sheet.attempts), `attempts of ${id}`).toEqual(byCode(numbers))
  expect(sheet.overlaps, `overlap of ${id}`).toBe(facts.sheets.some((other) => overlap(sheet, other)))
}

const byCode = <One extends { certification: string }>(list: readonly One[]): One[] =>
  [...list].sort((a, b) => (a.certification < b.certification ? -1 : 1))

/** Two tests of a soldier at the same time, that are not two sheets of one attempt. */
function overlap(a: SheetFact, b: SheetFact): boolean {
  if (a.id === b.id || a.body.candidateId !== b.body.candidateId) return false
  if (a.state === 'rejected' || b.state === 'rejected') return false
  if ((a.body.secondOf ?? a.id) === (b.body.secondOf ?? b.id)) return false
  return a.startedAt < b.finishedAt && b.startedAt < a.finishedAt
}

interface Row {
  readonly soldier: string
  readonly certification: string
  readonly from: string
  readonly through: string | null
  readonly value: object
}

async function expectStandings({ sql }: TestApp, facts: Facts): Promise<void> {
  const standings = await sql<Row>(`SELECT soldier_id AS soldier, c.code AS certification, from_day::text AS "from",
      through_day::text AS through, json_build_object('status', status, 'awardedOn', awarded_on, 'validThrough',
      valid_through, 'suspended', suspended, 'toward', toward, 'retestOpen', retest_open) AS value
    FROM standing JOIN certification c ON c.id = certification_id`)
  const retests = await sql<Row>(`SELECT soldier_id AS soldier, c.code AS certification, from_day::text AS "from",
      through_day::text AS through, json_build_object('standard', standard, 'attempt', attempt, 'on', on_day,
      'earliest', earliest, 'due', due, 'noGosInARow', no_gos_in_a_row, 'needsReview', needs_review) AS value
    FROM retest_span JOIN certification c ON c.id = certification_id ORDER BY standard`)
  const days = daysToAsk(facts)
  for (const soldier of facts.soldiers.keys()) {
    for (const certification of facts.certifications) {
      const own = (rows: Row[]) =>
        rows.filter((row) => row.soldier === soldier && row.certification === certification.code)
      const [ownStandings, ownRetests] = [own(standings), own(retests)]
      const history = historyOf(facts, soldier, certification)
      for (const day of days) {
        const holds = ({ from, through }: Row) => from <= day && (through === null || day <= through)
        const expected = standingByTheLetter({ certification, breaks: facts.breaks, history }, day)
        const what = `${soldier} in ${certification.code} on ${day}`
        expect(ownStandings.find(holds)?.value ?? NO_TEST_YET, what).toEqual(expected.status)
        const open = ownRetests.filter(holds).map(({ value }) => value as { due: string })
        expect(
          open.map((one) => ({ ...one, pastDue: one.due < day })),
          what,
        ).toEqual(expected.retests)
      }
    }
  }
}

const NO_TEST_YET = {
  status: 'no test yet',
  awardedOn: null,
  validThrough: null,
  suspended: false,
  toward: [],
  retestOpen: [],
}

/** The days on which something happened, and their neighbours; and some on which things run out. */
function daysToAsk(facts: Facts): string[] {
  const happened = new Set([
    ...facts.sheets.map(({ day }) => day),
    ...facts.breaks.map(({ effectiveFrom }) => effectiveFrom),
    ...facts.certifications.flatMap(({ terms }) => terms.map(({ effectiveFrom }) => effectiveFrom)),
    ...[...facts.soldiers.values()].flatMap(({ awards, withdrawals, suspensions, reviews, decisions }) => [
      ...awards.flatMap(({ awardedOn, validThrough }) => [awardedOn, validThrough]),
      ...withdrawals.map(({ on }) => on),
      ...suspensions.flatMap(({ from, lift }) => [from, ...(lift === null ? [] : [lift])]),
      ...decisions.map(({ on }) => on),
      ...reviews.map(({ on }) => on),
    ]),
  ])
  const days = new Set([...happened].flatMap((day) => [addDays(day, -1), day, addDays(day, 1)]))
  for (let after = 0; after < 500; after += 29) days.add(addDays('2026-01-01', after))
  return [...days].sort()
}

async function expectAwards({ sql }: TestApp, facts: Facts): Promise<void> {
  const stored = await sql<{ award: string }>(`SELECT concat_ws(' ', soldier_id, c.code, sheet_id, awarded_on,
      CASE WHEN in_force_from IS NULL THEN 'waits' END) AS award
    FROM earned_award JOIN certification c ON c.id = certification_id`)
  const expected = [...facts.soldiers.keys()].flatMap((soldier) =>
    facts.certifications.flatMap((certification) =>
      follow(facts, certification, soldier).awarding.map(
        ({ id, day }) =>
          `${soldier} ${certification.code} ${id} ${day}${isWaiting(facts, certification, soldier, id, day) ? ' waits' : ''}`,
      ),
    ),
  )
  expect(stored.map(({ award }) => award).sort()).toEqual(expected.sort())
}

/** Whether the terms of the day ask for an approval that is not there. */
function isWaiting(facts: Facts, certification: Certification, soldier: string, sheetId: string, day: string): boolean {
  const { decisions = [] } = historyOf(facts, soldier, certification)
  const isApproved = decisions.some((one) => one.sheetId === sheetId && one.decision === 'approve')
  return termsOf(certification, day).approval !== 'none' && !isApproved
}

async function expectFindings({ office }: TestApp, attempts: readonly CountedAttempt[], filter: FindingsFilter) {
  const query = new URLSearchParams(Object.entries(filter)).toString()
  const found = await office.get<MeasureFindings>(`/api/findings/measures?limit=500&${query}`)
  const faults = (list: readonly { code: string; count: number }[]) =>
    Object.fromEntries(list.map(({ code, count }) => [code, count]))
  const counts = Object.fromEntries([
    ...found.items.map((one) => [
      `minor ${one.standard} ${one.measure}`,
      { tested: one.tested, noGo: one.noGo, trials: one.trials, incorrect: one.incorrect, faults: faults(one.faults) },
    ]),
    ...found.majors.map((one) => [
      `major ${one.standard} ${one.major}`,
      { tested: one.judged, noGo: one.noGo, trials: one.judged, incorrect: one.noGo, faults: faults(one.faults) },
    ]),
  ])
  expect(found.next).toBeNull()
  expect(counts, `measures ${query}`).toEqual(recountMeasures(attempts, filter))
  const credited = await office.get<SponsorFindings>(`/api/findings/sponsors?limit=500&${query}`)
  const credits = Object.fromEntries(
    credited.items.map(({ sponsorId, attempts, passes, firstAttempts, firstPasses }) => [
      sponsorId,
      { attempts, passes, firstAttempts, firstPasses },
    ]),
  )
  expect(credits, `sponsors ${query}`).toEqual(recountSponsors(attempts, filter))
}
