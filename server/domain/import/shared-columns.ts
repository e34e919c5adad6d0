import type { Column, ColumnType } from './column.ts'

export const column = (
  key: string,
  title: string,
  type: ColumnType,
  needed: boolean,
  hint: string,
  example: string,
  also: readonly string[] = [],
): Column => ({ key, title, type, needed, hint, example, also })

export const NUMBER = ['roster no', 'number', 'soldier number', 'soldier no', 'personnel number', 'id number', 'roster']
export const person = (key: string, title: string, needed: boolean, also: readonly string[]) =>
  column(key, title, 'text', needed, 'The roster number.', '1007', also)
export const soldier = person('rosterNumber', 'Roster number', true, [...NUMBER, 'soldier'])
export const candidate = person('candidate', 'Candidate', true, [
  ...NUMBER,
  'soldier',
  'candidate number',
  'candidate roster number',
])
export const sponsor = (needed: boolean) =>
  person('sponsor', 'Sponsor', needed, ['sponsor number', 'sponsor roster number', 'coach', 'coached by'])
export const grader = person('grader', 'Grader', true, [
  'grader number',
  'grader roster number',
  'graded by',
  'examiner',
  'tested by',
])
export const standard = column('standard', 'Standard', 'text', true, 'Its code or title.', 'sword-saber-standing', [
  'test',
  'standard code',
  'task',
])
export const from = (hint: string) =>
  column('from', 'From', 'day', true, hint, '2026-01-05', [
    'from day',
    'since',
    'start',
    'start date',
    'effective',
    'effective date',
    'date from',
    'valid from',
    'as of',
    'joined',
    'date joined',
    'arrived',
  ])
export const to = column('to', 'To', 'day', false, 'Last day; blank: still.', '2026-06-30', [
  'until',
  'end',
  'end date',
  'through',
  'date to',
  'last day',
])
export const arm = column('arm', 'Arm', 'text', false, 'sword, saber, rifle …', 'sword', ['weapon', 'with'])
export const version = column(
  'standardVersion',
  'Version',
  'whole',
  false,
  'Blank: the one in force on that day.',
  '1',
  ['standard version', 'edition'],
)
export const certification = column('certification', 'Certification', 'text', true, 'Its code or title.', 'sword', [
  'certification code',
  'certificate',
  'qualification',
  'cert',
])
export const unit = (needed: boolean) =>
  column(
    'unit',
    'Unit',
    'text',
    needed,
    'Its name, or its path from the top.',
    'Calloway Point Ceremonial Battalion / A Company / 1st Platoon',
    ['unit path', 'organisation', 'organization', 'assigned to', 'assignment', 'unit name'],
  )
