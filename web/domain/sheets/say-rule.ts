import type { Violation } from '#contract/sheets/sheets.ts'
import { sayDay } from '../../words/say-day.ts'

const RULE_WORDS: Record<Violation['rule'], string> = {
  'grader-is-candidate': 'The grader graded themselves',
  'sponsor-is-candidate': 'The candidate is named as their own sponsor',
  'grader-coached': 'The grader coached the candidate',
  'grader-not-qualified': 'The grader was not qualified',
  'no-sponsor': 'No sponsor is named',
  'not-the-sponsor': 'The sponsor named is not the sponsor of record',
  'sponsor-not-certified': 'The sponsor was not certified',
  conditions: 'The conditions of the test were not met',
  'too-early': 'The retest came too early',
  'review-missing': 'The review before the retest is missing',
  'out-of-sequence': 'A standard that comes first is not in',
  'standard-not-in-force': 'This version of the standard was not in force',
  'arm-not-allowed': 'The arm is not allowed',
  'void-after-failure': 'Void after the test was lost',
  'clock-skew': 'The clock of the device is off',
}

/**
 * A condition of a valid test that was not met: its name as a sentence, and what the server found, with dates as people
 * say them; '' where that only repeats the name.
 */
export const sayViolation = (
  { rule, detail }: Pick<Violation, 'rule' | 'detail'>,
  today: string,
): { name: string; found: string } => {
  const name = `${RULE_WORDS[rule]}.`
  const found = detail.replace(/\b\d{4}-\d{2}-\d{2}\b/g, (day) => sayDay(day, today))
  return { name, found: found === name ? '' : found }
}
