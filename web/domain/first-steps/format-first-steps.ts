import type { FirstStep, FirstStepName, FirstSteps } from '#contract/first-steps/first-steps.ts'
import { addressTo, paths } from '../../paths.ts'
import { capital, countedInWords, inWords } from '../../words/format-number.ts'

interface StepWords {
  readonly title: string
  readonly why: string
  /** Where it is done, and what the way there says. */
  readonly to: string
  readonly todo: string
  /** What is counted. */
  readonly one: string
  readonly many: string
}

export const STEP_WORDS: Record<FirstStepName, StepWords> = {
  units: {
    title: 'Units',
    why: 'Battalion, companies, platoons, or whatever yours are called. Everybody belongs to one.',
    to: paths.units,
    todo: 'Make the units',
    one: 'unit',
    many: 'units',
  },
  'arms-and-grades': {
    title: 'Grades and what is carried',
    why: 'Your grades in order, and what the unit carries, if anything. Forms and files go by these lists.',
    to: paths.armsAndGrades,
    todo: 'Set up the lists',
    one: 'entry',
    many: 'entries',
  },
  standards: {
    title: 'Standards',
    why: 'What is tested: measures, calls, faults, and what it takes to pass. Copy a beginning or bring your own.',
    to: paths.standards,
    todo: 'Set up a standard',
    one: 'published version',
    many: 'published versions',
  },
  certifications: {
    title: 'Certifications and their terms',
    why: 'Which standards make somebody certified, for how long, and when a NO-GO may be retested.',
    to: paths.standards,
    todo: 'Set up a certification',
    one: 'certification',
    many: 'certifications',
  },
  roster: {
    title: 'Roster',
    why: 'Who is in which unit, with grade and what they carry: from a file, pasted, or written by hand.',
    to: paths.import,
    todo: 'Bring in the roster',
    one: 'soldier',
    many: 'soldiers',
  },
  sponsors: {
    title: 'Sponsors',
    why: 'Who coaches whom. A sponsor must be certified, so enter awards earned on paper first.',
    to: addressTo(paths.import, { rows: 'sponsorships' }),
    todo: 'Name sponsors',
    one: 'sponsorship',
    many: 'sponsorships',
  },
  graders: {
    title: 'Graders',
    why: 'Whoever is certified may grade what they hold; here others are appointed to grade a standard.',
    to: addressTo(paths.import, { rows: 'appointments' }),
    todo: 'Appoint graders',
    one: 'appointment',
    many: 'appointments',
  },
  accounts: {
    title: 'Accounts',
    why: 'Leaders, sponsors and graders sign in with their own. Each gets a one-time link.',
    to: paths.severalAccounts,
    todo: 'Make accounts',
    one: 'more account',
    many: 'more accounts',
  },
  'test-days': {
    title: 'First test day',
    why: 'Slots with graders; candidates are booked into them.',
    to: paths.testDays,
    todo: 'Plan a test day',
    one: 'test day',
    many: 'test days',
  },
  ceremonies: {
    title: 'First ceremony',
    why: 'Posts, and who may stand there that day.',
    to: addressTo(paths.newCeremony, {}),
    todo: 'Plan a ceremony',
    one: 'ceremony',
    many: 'ceremonies',
  },
}

export const isOpen = ({ done, skipped }: FirstStep): boolean => !done && !skipped

/** "Three of ten steps are done." */
export const formatFirstSteps = ({ steps, complete }: FirstSteps): string => {
  if (complete) return 'The unit is set up: every step is done, or left out.'
  const left = steps.filter(isOpen).length
  return left === steps.length
    ? `${capital(inWords(left))} steps to the first test day.`
    : `${capital(countedInWords(left, 'step'))} of ${inWords(steps.length)} ${left === 1 ? 'is' : 'are'} left.`
}

/** "Three units", "four entries, two of them not confirmed". */
export const formatStep = (step: FirstStep): string => {
  const { one, many } = STEP_WORDS[step.step]
  const waiting =
    step.waiting === 0
      ? ''
      : step.step === 'standards'
        ? `${countedInWords(step.waiting, 'draft')}`
        : `${countedInWords(step.waiting, 'entry', 'entries')} to confirm`
  if (step.count === 0) return waiting ? capital(waiting) : step.skipped ? 'Left out' : 'Not begun'
  return `${capital(countedInWords(step.count, one, many))}${waiting ? `, ${waiting}` : ''}`
}
