import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { dayInZone } from '../../../../server/domain/calendar/day-in-zone.ts'
import { certificationSpans } from '../../../../server/domain/certification/spans.ts'
import { certificationStatus, openRetests } from '../../../../server/domain/certification/status.ts'
import type { Certification, History, Terms } from '../../../../server/domain/certification/types.ts'
import { attemptNumbers } from '../../../support/attempt-numbers.ts'
import { walk } from '../../../support/walk.ts'

interface Case {
  name: string
  timeZone: string
  certification: Omit<Certification, 'terms'> & Omit<Terms, 'effectiveFrom' | 'sequence'>
  sheets: { id: string; standard: string; arm: string; finishedAt: string; outcome: 'GO' | 'NO-GO' | 'VOID' }[]
  awards: { awardedOn: string; validThrough: string }[]
  withdrawals: string[]
  suspensions: History['suspensions']
  reviews: History['reviews']
  attempts: Record<string, number>
  asOf: { day: string; status: unknown; retests: unknown[] }[]
}

const { cases } = JSON.parse(readFileSync(new URL('../../../cases/histories.json', import.meta.url), 'utf8')) as {
  cases: Case[]
}

const prepare = (one: Case) => {
  const { code, standards, arms, ...terms } = one.certification
  const certification: Certification = {
    code,
    standards,
    arms,
    terms: [{ effectiveFrom: '2000-01-01', sequence: 'any', ...terms }],
  }
  const history: History = {
    attempts: one.sheets.flatMap(({ outcome, ...sheet }) =>
      outcome === 'VOID'
        ? []
        : [
            {
              ...sheet,
              outcome,
              version: 1,
              finishedAt: Date.parse(sheet.finishedAt),
              day: dayInZone(sheet.finishedAt, one.timeZone),
            },
          ],
    ),
    awards: one.awards.map((award, entry) => ({ ...award, entry })),
    withdrawals: one.withdrawals,
    suspensions: one.suspensions,
    reviews: one.reviews,
  }
  return { certification, history }
}

describe('histories of soldiers, expected answers by an independent implementation', () => {
  it.each(cases.map((one) => [one.name, one] as const))('%s', (_name, one) => {
    const { certification, history } = prepare(one)
    for (const { day, status, retests } of one.asOf) {
      expect(certificationStatus(certification, [], history, day), day).toEqual(status)
      expect(openRetests(certification, [], history, day), day).toEqual(retests)
    }
    const steps = walk(certification, [], history)
    expect(Object.fromEntries(attemptNumbers(steps))).toEqual(one.attempts)
    const { statuses, retests } = certificationSpans(certification, [], history, steps)
    for (const { day, status, retests: open } of one.asOf) {
      const holds = (span: { from: string; through: string | null }) =>
        span.from <= day && (span.through === null || day <= span.through)
      const spanned = statuses.find(holds)?.value
      expect(
        spanned ?? {
          status: 'no test yet',
          awardedOn: null,
          validThrough: null,
          suspended: false,
          toward: [],
          retestOpen: [],
        },
      ).toEqual(status)
      expect(retests.filter(holds).map(({ value }) => ({ ...value, pastDue: day > value.due }))).toEqual(
        [...(open as { standard: string }[])].sort(
          (a, b) => certification.standards.indexOf(a.standard) - certification.standards.indexOf(b.standard),
        ),
      )
    }
  })
})
