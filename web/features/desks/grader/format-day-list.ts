import type { KeptSheet } from '../../../device/store/kept-sheet.ts'
import { completedCalls } from '../../../domain/sheets/grading/calls.ts'
import type { Turn } from '../../../domain/sheets/grading/turn-of.ts'
import { capital, counted, countedInWords, plural } from '../../../words/format-number.ts'

/** The answer of the desk: how many are still to be tested today. */
export const formatToday = (turns: readonly Turn[]): string => {
  const count = (turn: Turn) => turns.filter((one) => one === turn).length
  const left = count('to come') + count('under way')
  if (turns.length === 0) return 'Nobody is booked with you today.'
  if (left === 0)
    return `${capital(countedInWords(turns.length, 'candidate'))} ${plural(turns.length, 'was', 'were')} booked with you today; all are through.`
  const rest = turns.length - left
  return `${capital(countedInWords(left, 'candidate'))} to test today${rest === 0 ? '' : `; ${countedInWords(rest, 'is', 'are')} through`}.`
}

/** A test that was begun and not closed, in words: "CPL Amadi’s test is under way: 8 calls marked." */
export const formatUnderWay = ({ sheet }: Pick<KeptSheet, 'sheet'>): string => {
  const { grade, familyName, rosterNumber } = sheet.head.candidate
  const name = [grade, familyName || rosterNumber].filter(Boolean).join(' ')
  const what = sheet.head.purpose === 'practice' ? 'practice' : 'test'
  return `${name}’s ${what} is under way: ${counted(completedCalls(sheet), 'call')} marked.`
}
