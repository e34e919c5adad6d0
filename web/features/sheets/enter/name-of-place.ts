import type { Standard } from '#contract/standards/standards.ts'
import { type Cell, isMajor } from './cells.ts'

/** What a place on the sheet is called: "Draw, trial 2", or a major measure's title. */
export const nameOfPlace = ({ majors, minors }: Pick<Standard, 'majors' | 'minors'>, cell: Cell): string => {
  const title = [...majors, ...minors].find(({ code }) => code === cell.code)?.title ?? cell.code
  return isMajor(cell) ? title : `${title}, trial ${cell.trial}`
}
