import type { Session } from '#contract/accounts/session.ts'
import type { DayList } from '#contract/test-days/day-list.ts'
import { rightNow } from '../../../api/server-clock.ts'
import { keepPendingAction } from '../../../device/store/pending-action-store.ts'
import { keepPractice } from '../../../device/store/practice-store.ts'
import { keepSheet, readSheet } from '../../../device/store/sheet-store.ts'
import { startPractice } from '../../../domain/coaching/running-practice.ts'
import { newId } from '../../../domain/new-id.ts'
import { startSheet } from '../../../domain/sheets/grading/running-sheet.ts'
import type { StartChoice } from '../../../domain/sheets/grading/start-choice.ts'
import type { Filled } from './use-start-form.ts'

/** Keeps a new practice of some measures on this device; gives its id. */
export const keepNewPractice = async (
  account: Session,
  { standard, head }: Filled,
  measures: readonly string[],
): Promise<string> => {
  const { id: candidateId, grade, familyName } = head.candidate
  const of = { standard: standard.code, standardVersion: standard.version, arm: head.arm }
  const candidate = { id: candidateId ?? '', grade, familyName }
  const id = newId()
  await keepPractice({
    accountId: account.accountId,
    accountName: account.name,
    id,
    state: 'running',
    practice: startPractice({ candidate, ...of }, measures, rightNow().toISOString()),
    revision: 1,
    body: null,
    message: '',
  })
  return id
}

/** The test day of somebody without a booking who is tested on a day; null for any other sheet. */
export const walkInDayOf = ({ booking, purpose }: StartChoice, list: DayList, on: string): string | null =>
  booking === null && purpose === 'test' ? (list.testDays?.find((one) => one.on === on)?.id ?? null) : null

/**
 * Keeps a new sheet on this device; gives its id. The sheet of a booking has the booking's id, so that the second grader
 * knows it without a network.
 */
export const keepNewSheet = async (
  account: Session,
  { booking, purpose }: StartChoice,
  { standard, head }: Filled,
  walkInDay: string | null,
): Promise<string> => {
  const own = booking && !booking.asSecond ? booking.id : null
  const isTaken = own !== null && (await readSheet(account.accountId, own)) !== undefined
  const id = own === null || isTaken ? newId() : own
  const sheet = startSheet(
    {
      ...head,
      purpose,
      standard: standard.code,
      standardVersion: standard.version,
      graderId: account.soldierId ?? '',
      testDayId: walkInDay ?? booking?.testDayId ?? null,
      secondOf: booking?.asSecond ? (booking.firstSheetId ?? booking.id) : null,
    },
    rightNow().toISOString(),
  )
  await keepSheet({
    accountId: account.accountId,
    accountName: account.name,
    id,
    state: 'running',
    sheet,
    revision: 1,
    closedAt: null,
    body: null,
    message: '',
    refusedWith: null,
    tries: 0,
    answer: null,
  })
  return id
}

/** Keeps, to be sent, that somebody without a booking takes a test under this sheet. */
export const keepWalkIn = async (
  account: Session,
  id: string,
  { standard, head }: Filled,
  testDayId: string,
): Promise<void> => {
  const { rosterNumber, familyName } = head.candidate
  const body = { rosterNumber, familyName, standard: standard.code, found: head.conditions }
  const walkIn = { accountId: account.accountId, id, at: new Date().toISOString(), state: 'waiting' } as const
  await keepPendingAction({ ...walkIn, message: '', kind: 'walk-in', testDayId, body })
}
