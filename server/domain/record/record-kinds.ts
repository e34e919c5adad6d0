/** Kinds of changes by which the record is read, each with the first words of its actions. */
const FIRST_WORDS = {
  sheets: ['sheet'],
  people: ['soldier', 'absence', 'appointment', 'unit', 'lists', 'first-step'],
  coaching: ['sponsorship', 'coaching-note'],
  certifications: ['award', 'suspension', 'withdrawal', 'review', 'retest', 'certificate'],
  'test-days': ['test-day', 'slots', 'slot', 'booking', 'plan'],
  ceremonies: ['ceremony'],
  standards: ['standard', 'certification'],
  accounts: ['account', 'calendar'],
  files: ['import', 'backup', 'record'],
  'sign-ins': ['session'],
} as const

export type RecordKind = keyof typeof FIRST_WORDS

export const RECORD_KINDS = Object.keys(FIRST_WORDS) as [RecordKind, ...RecordKind[]]

/** How the actions of a kind begin. */
export const firstWordsOf = (kind: RecordKind): readonly string[] => FIRST_WORDS[kind]

/** The kind of an action by its name, as `sheet.amended`; undefined where it is of none. */
export const recordKindOf = (action: string): RecordKind | undefined =>
  RECORD_KINDS.find((kind) => firstWordsOf(kind).includes(action.split('.')[0]!))
