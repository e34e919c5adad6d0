import type { SoldierDetail } from '#contract/soldiers/soldiers.ts'

export interface RecordLine {
  /** What orders the line: the day it begins. */
  on: string
  what: string
  /** What was written down with it. */
  note: string
}

interface Titles {
  certification: (code: string) => string
  standard: (code: string) => string
  unit: (id: string) => string
  day: (day: string) => string
}

/** Everything on record about a soldier that is not on a sheet, the newest first. */
export const recordLines = (soldier: SoldierDetail, titles: Titles): RecordLine[] => {
  const span = (from: string, to: string | null) =>
    to === null ? `from ${titles.day(from)}` : `${titles.day(from)} to ${titles.day(to)}`
  const lines: RecordLine[] = [
    ...soldier.periods.map(({ from, through, grade, arms, unitId }) => ({
      on: from,
      what: `${grade}, ${titles.unit(unitId)}, ${span(from, through)}`,
      note: arms.join(', '),
    })),
    ...soldier.sponsors.map(({ from, to, sponsorName }) => ({
      on: from,
      what: `Sponsor ${sponsorName}, ${span(from, to)}`,
      note: '',
    })),
    ...soldier.candidates.map(({ from, to, candidateName }) => ({
      on: from,
      what: `Sponsors ${candidateName}, ${span(from, to)}`,
      note: '',
    })),
    ...soldier.appointments.map(({ from, to, standard }) => ({
      on: from,
      what: `Appointed grader for ${titles.standard(standard)}, ${span(from, to)}`,
      note: '',
    })),
    ...soldier.reviews.map(({ on, standard, note }) => ({
      on,
      what: `Review of ${titles.standard(standard)}, ${titles.day(on)}`,
      note,
    })),
    ...soldier.withdrawals.map(({ on, certification, reason }) => ({
      on,
      what: `Withdrawn from training for ${titles.certification(certification)}, ${titles.day(on)}`,
      note: reason,
    })),
    ...soldier.awards.map(({ awardedOn, validThrough, certification, evidence }) => ({
      on: awardedOn,
      what: `${titles.certification(certification)} carried over: awarded ${titles.day(awardedOn)}, valid through ${titles.day(validThrough)}`,
      note: evidence,
    })),
    ...soldier.suspensions.map(({ from, lift, certification, reason, liftReason }) => ({
      on: from,
      what: `Suspended in ${titles.certification(certification)}, ${lift ? `${titles.day(from)}, lifted ${titles.day(lift)}` : `from ${titles.day(from)}`}`,
      note: [reason, liftReason].filter(Boolean).join('; lifted: '),
    })),
  ]
  return lines.sort((a, b) => b.on.localeCompare(a.on))
}
