import type { PlainDate } from '../calendar/plain-date.ts'
import { compareSheets } from '../certification/sheet-order.ts'
import { certificationStatus, openRetests } from '../certification/status.ts'
import type { Attempt, CertificationStatus, History, OpenRetest } from '../certification/types.ts'
import type { Known, KnownSheet } from './what-was-known.ts'

/** How a soldier stands in one certification on a day. */
export interface StandingPicture extends CertificationStatus {
  readonly certification: string
  readonly retests: readonly OpenRetest[]
}

/** How a soldier stands on a day by what is known: where there is something to say. */
export interface Picture {
  readonly certifications: readonly StandingPicture[]
  /** Tests up to that day, in order. */
  readonly sheets: readonly KnownSheet[]
}

/** How a soldier stands on a day by what was known, by the same rules as ever; due days as the office moved them. */
export function pictureOf(known: Known, asOf: PlainDate): Picture {
  const attempts = known.sheets.flatMap(attemptOf)
  const certifications = known.certifications.map((certification): StandingPicture => {
    const { code } = certification
    const own = <Fact extends { certification: string }>(facts: readonly Fact[]) =>
      facts.filter((fact) => fact.certification === code)
    const history: History = {
      attempts,
      awards: own(known.awards),
      withdrawals: own(known.withdrawals).map(({ on }) => on),
      suspensions: own(known.suspensions),
      decisions: own(known.decisions),
      extensions: own(known.extensions),
      reviews: known.reviews,
    }
    const retests = openRetests(certification, known.breaks, history, asOf)
    return {
      certification: code,
      ...certificationStatus(certification, known.breaks, history, asOf),
      retests: retests.map((retest) => withMovedDue(own(known.dueMoves), retest, asOf)),
    }
  })
  return {
    certifications: certifications.filter(({ status, suspended }) => status !== 'no test yet' || suspended),
    sheets: known.sheets.filter(({ day, isPractice }) => day <= asOf && !isPractice).sort(compareSheets),
  }
}

function attemptOf(sheet: KnownSheet): Attempt[] {
  const { id, standard, version, arm, finishedAt, day, outcome, state, isPractice, isSecond } = sheet
  if (state !== 'counted' || isPractice || isSecond || outcome === 'VOID') return []
  return [{ id, standard, version, arm, finishedAt, day, outcome }]
}

function withMovedDue(moves: Known['dueMoves'], retest: OpenRetest, asOf: PlainDate): OpenRetest {
  const moved = moves.findLast(({ standard, on }) => standard === retest.standard && on === retest.on)
  return moved ? { ...retest, due: moved.due, pastDue: asOf > moved.due } : retest
}
