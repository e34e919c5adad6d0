import type { ArmsAndGrades } from '#contract/arms-and-grades/arms-and-grades.ts'

/**
 * Whether a unit carries anything: one that wrote down its grades and no arm does not, and is asked about none. In: its
 * lists, or undefined while they are on the way.
 */
export const carriesArms = (lists: Pick<ArmsAndGrades, 'arms' | 'grades'> | undefined): boolean =>
  lists === undefined || lists.arms.length > 0 || lists.grades.length === 0
