import type { Standard } from '#contract/standards/standards.ts'
import { newId } from '../../../domain/new-id.ts'
import { today } from '../../../words/today.ts'
import { armFor } from './choose-arm.ts'
import { defaultStandardId } from './default-standard.ts'
import { type Draft, newDraft } from './draft.ts'

interface Beginning {
  standards: readonly Standard[]
  timeZone: string | null
  /** What a new sheet begins with; null: nothing in particular. */
  begin: Partial<Draft> | null
}

/** A blank sheet: what the sheets of one pile share comes from the one before it, where there was one. */
export const nextDraft = ({ standards, timeZone, begin }: Beginning, before?: Draft): Draft => {
  const standardId = before?.standardId ?? defaultStandardId(standards, today())
  const draft = newDraft(newId(), {
    standardId,
    day: before?.day ?? today(timeZone),
    grader: before?.grader ?? null,
    arm: before?.arm ?? armFor(standards.find(({ id }) => id === standardId)?.arms ?? [], ''),
  })
  return before ? { ...draft, purpose: before.purpose } : { ...draft, ...begin }
}
