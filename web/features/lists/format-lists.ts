import type { ArmsAndGrades } from '#contract/arms-and-grades/arms-and-grades.ts'
import { figure } from '../../words/format-number.ts'

const count = (number: number, one: string, many: string): string =>
  number === 1 ? `one ${one}` : `${number === 0 ? 'no' : figure(number)} ${many}`

/** "12 grades and 3 arms; two of them are new and not confirmed." */
export function formatLists({ grades, arms }: Pick<ArmsAndGrades, 'grades' | 'arms'>): string {
  if (grades.length + arms.length === 0) return 'No grade and no arm is in the lists yet.'
  const open = [...grades, ...arms].filter(({ confirmed }) => !confirmed).length
  const said = `${count(grades.length, 'grade', 'grades')} and ${count(arms.length, 'arm', 'arms')}`
  const ends =
    open === 0 ? '.' : `; ${open === 1 ? 'one is new and waits' : `${figure(open)} are new and wait`} for you.`
  return said.charAt(0).toUpperCase() + said.slice(1) + ends
}
