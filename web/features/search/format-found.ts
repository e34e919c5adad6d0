import type { Found } from '#contract/search/search.ts'
import { addressTo, paths } from '../../paths.ts'
import { formatDay } from '../../words/format-day.ts'

const ADDRESS: Record<Found['kind'], (id: string) => string> = {
  soldier: (id) => addressTo(paths.candidate, { id }),
  ceremony: (id) => addressTo(paths.ceremony, { id }),
  'test day': (id) => addressTo(paths.testDay, { id }),
  standard: (id) => addressTo(paths.standard, { id }),
}

/** Where something found leads to. */
export const addressOf = ({ kind, id }: Found): string => ADDRESS[kind](id)

const KIND: Record<Found['kind'], string> = {
  soldier: '',
  ceremony: 'ceremony',
  'test day': 'test day',
  standard: 'standard',
}

/** "1003, 1st Platoon", "ceremony, Sat 5 Dec", "standard". */
export const formatFound = ({ kind, note }: Found, today: string): string =>
  [KIND[kind], /^\d{4}-\d{2}-\d{2}$/.test(note) ? formatDay(note, today) : note].filter(Boolean).join(', ')
