import { IMPORT_KINDS, type ImportKind } from './column.ts'

/** Fields that only things of a kind have together. */
const SIGNS: readonly (readonly [ImportKind, readonly string[]])[] = [
  ['standards', ['code', 'minors']],
  ['ceremonies', ['posts', 'startsAt']],
  ['sheets', ['candidate', 'startedAt']],
  ['results', ['candidate', 'outcome']],
  ['sponsorships', ['candidate', 'sponsor', 'from']],
  ['awards', ['rosterNumber', 'awardedOn']],
  ['appointments', ['rosterNumber', 'standard', 'from']],
  ['roster', ['rosterNumber', 'from']],
]

/**
 * The things in a JSON file and their kind: one thing, a list, `{"items": […]}`, or a list under the name of its kind. Null
 * where it is none of these, or no kind has the fields of the first thing.
 */
export function itemsOfJson(content: unknown): { kind: ImportKind; items: readonly unknown[] } | null {
  if (Array.isArray(content)) return withKind(content)
  if (!isObject(content)) return null
  const kind = IMPORT_KINDS.find((name) => Array.isArray(content[name]))
  if (kind) return { kind, items: content[kind] as unknown[] }
  if (Array.isArray(content.items)) {
    const named = IMPORT_KINDS.find((name) => name === content.kind)
    return named ? { kind: named, items: content.items } : withKind(content.items)
  }
  return withKind([content])
}

function withKind(items: readonly unknown[]): { kind: ImportKind; items: readonly unknown[] } | null {
  const first = items[0]
  if (items.length === 0) return { kind: 'roster', items }
  if (!isObject(first)) return null
  const kind = SIGNS.find(([, fields]) => fields.every((field) => field in first))?.[0]
  return kind ? { kind, items } : null
}

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value)
