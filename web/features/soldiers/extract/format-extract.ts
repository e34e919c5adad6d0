import { formatAction } from '../../../domain/record/format-record.ts'
import { formatDayWithYear } from '../../../words/format-day.ts'

/** "awardedOn": "Awarded on". */
export const formatName = (name: string): string => {
  const words = name.replace(/([A-Z])/g, ' $1').toLowerCase()
  return words.charAt(0).toUpperCase() + words.slice(1)
}

const DAY = /^\d{4}-\d\d-\d\d$/
const INSTANT = /^\d{4}-\d\d-\d\dT\d\d:\d\d/

/** A value of an entry in words; nothing: "–". */
export const formatValue = (value: unknown): string => {
  if (value === null || value === undefined || value === '') return '–'
  if (typeof value === 'boolean') return value ? 'yes' : 'no'
  if (Array.isArray(value)) return value.map(nested).join('; ') || '–'
  if (typeof value === 'object') return nested(value) || '–'
  const text = String(value)
  if (DAY.test(text)) return formatDayWithYear(text)
  if (INSTANT.test(text)) {
    return `${formatDayWithYear(text.slice(0, 10))}, ${new Date(text).toISOString().slice(11, 16)} UTC`
  }
  return text
}

/** What is within a value, in the order of the entry; what says nothing is left out. */
const nested = (value: unknown): string => {
  if (Array.isArray(value)) return value.map(nested).join(' ')
  if (value === null || typeof value !== 'object') return formatValue(value)
  return Object.entries(value)
    .filter(([, within]) => within !== null && within !== '' && !(Array.isArray(within) && within.length === 0))
    .map(([name, within]) =>
      typeof within === 'object'
        ? `${formatName(name).toLowerCase()} (${formatValue(within)})`
        : `${formatName(name).toLowerCase()} ${formatValue(within)}`,
    )
    .join(', ')
}

/** A value of a list; what was done stands in the words of the record. */
export const formatValueOf = (name: string, value: unknown): string =>
  name === 'action' && typeof value === 'string' ? formatAction(value) : formatValue(value)
