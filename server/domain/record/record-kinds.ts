/** Kinds of changes by which the record is read, each with the first words of its actions. */
const FIRST_WORDS = {
  sheets: ['sheet'],
  people: ['soldier', 'absence', 'appointment', 'unit', 'lists', 'first-step'],
  coaching: ['sponsorship', 'coaching-note', 'practice'],
  certifications: ['award', 'suspension', 'withdrawal', 'review', 'retest', 'certificate'],
  'test-days': ['test-day', 'slots', 'slot', 'booking', 'plan'],
  ceremonies: ['ceremony'],
  standards: ['standard', 'certification'],
  accounts: ['account', 'calendar', 'mail', 'sign-on'],
  files: ['import', 'backup', 'record'],
  'sign-ins': ['session'],
} as const

export type RecordKind = keyof typeof FIRST_WORDS

/** How the actions of a kind begin. */
export const firstWordsOf = (kind: RecordKind): readonly string[] => FIRST_WORDS[kind]
