import type { Arm, Grade } from '../../server/contract/arms-and-grades/arms-and-grades.ts'

/** Grades and arms as guards commonly have them; names are common practice. */
const GRADES = [
  ['PVT', 'Private'],
  ['PFC', 'Private first class'],
  ['SPC', 'Specialist'],
  ['CPL', 'Corporal'],
  ['SGT', 'Sergeant'],
  ['SSG', 'Staff sergeant'],
  ['SFC', 'Sergeant first class'],
  ['MSG', 'Master sergeant'],
  ['1SG', 'First sergeant'],
  ['SGM', 'Sergeant major'],
] as const

const OFFICERS = [
  ['2LT', 'Second lieutenant'],
  ['1LT', 'First lieutenant'],
  ['CPT', 'Captain'],
  ['MAJ', 'Major'],
  ['LTC', 'Lieutenant colonel'],
] as const

export const demoGrades: readonly Grade[] = [
  ...GRADES.map(([code, name]) => ({ code, name, officer: false, confirmed: true })),
  ...OFFICERS.map(([code, name]) => ({ code, name, officer: true, confirmed: true })),
]

export const demoArms: readonly Arm[] = (
  [
    ['rifle', 'Rifle'],
    ['sword', 'Sword'],
    ['saber', 'Saber'],
  ] as const
).map(([code, name]) => ({ code, name, confirmed: true }))
