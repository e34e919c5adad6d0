import { useFilters } from '../../../ui/use-filters.ts'

const NAMES = [
  'moreOn',
  'moreOf',
  'moreSlots',
  'fewerOn',
  'fewerSlots',
  'away',
  'ceremony',
  'movedTo',
  'planned',
] as const

const USUAL_SLOTS = '8'
const NOTHING = Object.fromEntries(NAMES.map((name) => [name, ''])) as Record<(typeof NAMES)[number], string>

export type WhatIfFilters = ReturnType<typeof useWhatIf>

/** What is supposed, kept in the address alone, so that a link carries it; and how the server is asked about it. */
export function useWhatIf({ on, standards }: { on: string; standards: readonly string[] }) {
  const [filters, set] = useFilters(NAMES)
  const { moreOn, fewerOn, away, ceremony, movedTo, planned } = filters
  const moreOf = standards.includes(filters.moreOf) ? filters.moreOf : (standards[0] ?? '')
  const moreSlots = filters.moreSlots || USUAL_SLOTS
  const fewerSlots = filters.fewerSlots || '1'
  const moved = ceremony && movedTo && movedTo !== on ? `${ceremony}/${movedTo}` : ''
  /** The day the answer is of. */
  const until = moved ? movedTo : on
  return {
    ...filters,
    moreOf,
    moreSlots,
    fewerSlots,
    until,
    supposed: {
      more: moreOn && moreOn <= until ? `${moreOn}/${moreOf}/${moreSlots}` : '',
      fewer: fewerOn ? `${fewerOn}/${fewerSlots}` : '',
      away,
      moved,
      plan: planned,
    },
    set,
    isSet: NAMES.some((name) => filters[name] !== ''),
    clear: () => set(NOTHING),
  }
}
