import { follow } from './attempts-of.ts'
import { isAttempt, isBefore } from './history-of.ts'
import type { Facts, SheetFact } from './read-facts.ts'

interface Kind {
  readonly kind: 'first' | 'retest' | 'renewal'
  /** NO-GOs in a row before it. */
  readonly noGos: number
}

/**
 * What kind of attempt a counted test is: first without a counted test of the standard and without an award of a
 * certification that requires it before; else retest where the latest of tests, awards and withdrawals is a NO-GO; else
 * renewal.
 */
export function kindByTheLetter(facts: Facts, sheet: SheetFact): Kind {
  const { candidateId, standard } = sheet.body
  const soldier = facts.soldiers.get(candidateId)!
  const requiring = facts.certifications.filter(({ standards }) => standards.includes(standard))
  const earlier = facts.sheets.filter(
    (one) => one.body.candidateId === candidateId && isAttempt(one) && isBefore(one, sheet),
  )
  const awarding = new Set(
    requiring.flatMap((one) => follow(facts, one, candidateId, sheet).awarding.map(({ id }) => id)),
  )
  const codes = requiring.map(({ code }) => code)
  const dayEnds = [
    ...soldier.awards.filter((one) => codes.includes(one.certification)).map(({ awardedOn }) => awardedOn),
    ...soldier.withdrawals.filter((one) => codes.includes(one.certification)).map(({ on }) => on),
  ].filter((day) => day < sheet.day)
  const carried = soldier.awards.some((one) => codes.includes(one.certification) && one.awardedOn < sheet.day)
  const tests = earlier.filter((one) => one.body.standard === standard)
  if (tests.length === 0 && awarding.size === 0 && !carried) return { kind: 'first', noGos: 0 }
  const inOrder = earlier.sort((a, b) => (isBefore(a, b) ? -1 : 1))
  dayEnds.sort()
  let noGos = 0
  const endDaysBefore = (day: string) => {
    while (dayEnds.length > 0 && dayEnds[0]! < day) {
      dayEnds.shift()
      noGos = 0
    }
  }
  for (const one of inOrder) {
    endDaysBefore(one.day)
    if (one.body.standard === standard) noGos = one.score.outcome === 'GO' ? 0 : noGos + 1
    if (awarding.has(one.id)) noGos = 0
  }
  endDaysBefore(sheet.day)
  return { kind: noGos > 0 ? 'retest' : 'renewal', noGos }
}
