import { paths } from '../../paths.ts'
import { Tabs } from '../../ui/tabs.tsx'
import { FINDING_FILTERS } from './use-finding.ts'

const TABS = [
  { to: paths.measures, text: 'Failing measures' },
  { to: paths.trend, text: 'Month by month' },
  { to: paths.readings, text: 'Readings' },
  { to: paths.pairs, text: 'Failing together' },
  { to: paths.quality, text: 'Standards as tests' },
  { to: paths.sponsors, text: 'Sponsors' },
  { to: paths.graders, text: 'Graders' },
  { to: paths.timeToCertify, text: 'Time to certify' },
  { to: paths.forecasts, text: 'Forecasts' },
] as const

export type FindingPath = (typeof TABS)[number]['to']

/** The way between the findings, with the filters they share. */
export function FindingTabs({ here, search }: { here: FindingPath; search: string }) {
  const all = new URLSearchParams(search)
  const shared = new URLSearchParams(
    FINDING_FILTERS.flatMap((name) => {
      const value = all.get(name)
      return value ? [[name, value]] : []
    }),
  ).toString()
  return (
    <Tabs
      label="Findings"
      tabs={TABS.map(({ to, text }) => ({ to: shared ? `${to}?${shared}` : to, text, isHere: to === here }))}
    />
  )
}
