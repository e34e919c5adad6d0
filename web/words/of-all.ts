import { figure } from './format-number.ts'

/** "84 of 120". */
export const ofAll = (part: number, all: number): string => `${figure(part)} of ${figure(all)}`
