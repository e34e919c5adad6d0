import type { Column } from './column.ts'
import { editDistance } from './edit-distance.ts'
import { normalizeLabel } from './normalize-label.ts'

/** Which column of the file, from 0, holds what; by key. */
export type Mapping = Readonly<Record<string, number>>

export interface Match {
  readonly key: string
  readonly index: number
  /** 1: the label is a known one; lower: it is only like one. */
  readonly likeness: number
}

const LEAST_LIKENESS = 0.78
const SHORTEST_ALIKE = 4

/**
 * Suggests which label of a file means which column: known labels first, whatever their case, accents and punctuation,
 * then labels that are only a letter or two off. No label and no column is used twice.
 */
export function matchColumns(labels: readonly string[], columns: readonly Column[]): Match[] {
  const words = labels.map(normalizeLabel)
  const known = columns.map(({ key, title, also }) => ({ key, names: [title, key, ...also].map(normalizeLabel) }))
  const candidates: Match[] = []
  words.forEach((word, index) => {
    if (word === '') return
    for (const { key, names } of known) {
      const at = names.indexOf(word)
      // Of several columns with this name it is the one that lists it first.
      if (at >= 0) candidates.push({ key, index, likeness: at === 0 ? 1 : 1 - Math.min(at, 50) / 1000 })
    }
    if (candidates.some((one) => one.index === index) || word.length < SHORTEST_ALIKE) return
    for (const { key, names } of known) {
      const likeness = Math.max(
        ...names.filter(({ length }) => length >= SHORTEST_ALIKE).map((name) => likenessOf(word, name)),
        0,
      )
      if (likeness >= LEAST_LIKENESS) candidates.push({ key, index, likeness: Math.min(likeness, 0.94) })
    }
  })
  const taken = { keys: new Set<string>(), labels: new Set<number>() }
  return candidates
    .sort((a, b) => b.likeness - a.likeness || a.index - b.index)
    .filter(({ key, index }) => {
      if (taken.keys.has(key) || taken.labels.has(index)) return false
      taken.keys.add(key)
      taken.labels.add(index)
      return true
    })
}

const likenessOf = (a: string, b: string): number => {
  const longest = Math.max(a.length, b.length)
  return Math.abs(a.length - b.length) > longest * (1 - LEAST_LIKENESS) ? 0 : 1 - editDistance(a, b) / longest
}
