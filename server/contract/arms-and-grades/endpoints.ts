import type { Endpoint } from '../endpoint.ts'
import type { ArmsAndGrades, ArmsAndGradesBody, ArmsAndGradesUse } from './arms-and-grades.ts'

export const getArmsAndGrades = 'GET /api/arms-and-grades' as Endpoint<{ answer: typeof ArmsAndGrades }>

export const saveArmsAndGrades = 'PUT /api/arms-and-grades' as Endpoint<{
  body: typeof ArmsAndGradesBody
  answer: typeof ArmsAndGrades
}>

export const getArmsAndGradesUse = 'GET /api/arms-and-grades/use' as Endpoint<{ answer: typeof ArmsAndGradesUse }>
