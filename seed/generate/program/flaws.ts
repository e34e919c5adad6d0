import type { SheetBody } from '../../../server/contract/sheets/sheets.ts'

/** What can be wrong with a test day's sheet, by the condition it breaks. */
export type Flaw = keyof typeof FLAWS

interface Story {
  /** How often, next to the others, a sheet gets it by chance; 0: it has an occasion of its own. */
  readonly weight: number
  /** What the office says when it lets the sheet count; null: it never does. */
  readonly count: string | null
  readonly reject: string
}

export const FLAWS = {
  'no-sponsor': {
    weight: 4,
    count: 'Sponsor called away by the duty desk, replaced on the field by the platoon sergeant; test was in order.',
    reject: 'Nobody present had coached the candidate. To be tested again with the sponsor there.',
  },
  'not-the-sponsor': {
    weight: 3,
    count: 'Stand-in for the sponsor, who was on leave; agreed with the office beforehand.',
    reject: 'The stand-in was not agreed with the office.',
  },
  'sponsor-not-certified': {
    weight: 0,
    count: 'Sponsor lapsed a few days before and has booked a renewal; the candidate shall not suffer by it.',
    reject: 'Sponsor not certified that day. Candidate to be given another sponsor.',
  },
  conditions: {
    weight: 4,
    count: 'Scabbard clip broken, replaced before the first call; the safety officer agreed.',
    reject: 'Equipment was not serviceable. Test to be repeated.',
  },
  'too-early': {
    weight: 0,
    count: 'Candidate leaves for a course; the early retest was agreed with the office.',
    reject: 'Too early after the last test; nothing was agreed.',
  },
  'review-missing': {
    weight: 0,
    count: 'The review was held and noted by the platoon, but not entered.',
    reject: 'Review first, then the next test.',
  },
  'clock-skew': {
    weight: 2,
    count: 'Clock of the device was wrong; times checked against the test day’s list.',
    reject: 'Times cannot be made sure of.',
  },
  'arm-not-allowed': {
    weight: 2,
    count: null,
    reject: 'Entered for the wrong arm; the paper sheet is lost.',
  },
  'grader-coached': {
    weight: 2,
    count: null,
    reject: 'Nobody grades whom they coach. To be tested again by another grader.',
  },
  'grader-not-qualified': {
    weight: 2,
    count: 'Second grader stood beside throughout and agrees with every mark.',
    reject: 'Grader was not appointed.',
  },
  'standard-not-in-force': {
    weight: 0,
    count: 'Old form used; the measures are the same.',
    reject: 'Old form used.',
  },
  'void-after-failure': {
    weight: 0,
    count: 'Lightning in the area, seen by the safety officer; the score did not matter.',
    reject: 'Broken off once it was lost. Enter it as it stood.',
  },
} as const satisfies Partial<Record<string, Story>>

/** Each is on a sheet of the last days that waits for the office; and an amendment waits for a second person. */
export const LEFT_UNDECIDED: readonly (Flaw | 'amendment')[] = [
  'no-sponsor',
  'too-early',
  'grader-coached',
  'conditions',
  'clock-skew',
  'arm-not-allowed',
  'not-the-sponsor',
  'review-missing',
  'amendment',
]

/** The arm that is easily ticked by mistake. */
export const wrongArm = (arm: SheetBody['arm']): string => (arm === 'sword' ? 'saber' : 'sword')
