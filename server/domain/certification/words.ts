import { addDays, type PlainDate } from '../calendar/plain-date.ts'
import type { AwardHistory, CarriedAward, Terms } from './types.ts'

/** What commanders said about the award that one sheet makes. */
export interface Word {
  readonly approvedOn: PlainDate | null
  readonly refused: boolean
  readonly extendedDays: number
}

export const NO_WORD: Word = { approvedOn: null, refused: false, extendedDays: 0 }

type Words = Pick<AwardHistory, 'decisions' | 'extensions'>

/** What was said about the award of a sheet, should it make one. */
export function wordAbout({ decisions = [], extensions = [] }: Words, sheetId: string): Word {
  const decision = decisions.find((one) => one.sheetId === sheetId)
  return {
    approvedOn: decision?.decision === 'approve' ? decision.on : null,
    refused: decision?.decision === 'refuse',
    extendedDays: extendedDays(extensions, sheetId),
  }
}

/** A carried-over award with its last day as extended. */
export function withExtensions({ extensions = [] }: Words, award: CarriedAward): CarriedAward {
  const days = award.id === undefined ? 0 : extendedDays(extensions, award.id)
  return days === 0 ? award : { ...award, validThrough: addDays(award.validThrough, days) }
}

/** From which day an award made by tests on a day is in force, by the terms of that day; null: it waits for a commander. */
export function inForceFrom(
  { approval = 'none' }: Terms,
  awardedOn: PlainDate,
  { approvedOn }: Word,
): PlainDate | null {
  if (approval === 'none') return awardedOn
  if (approvedOn === null) return null
  return approval === 'required' && approvedOn > awardedOn ? approvedOn : awardedOn
}

/** Whether a refusal undoes the award: only where the terms ask for approval. */
export const isRefused = ({ approval = 'none' }: Terms, { refused }: Word): boolean => approval !== 'none' && refused

const extendedDays = (extensions: NonNullable<Words['extensions']>, award: string): number =>
  extensions.reduce((sum, one) => (one.award === award ? sum + one.days : sum), 0)
