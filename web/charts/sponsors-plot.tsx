import type { SponsorFindings } from '#contract/findings.ts'
import { CountsPlot } from './counts-plot.tsx'

/** Sponsors as dots: attempts of their candidates, and how many of these were GO. */
export function SponsorsPlot({ sponsors }: { sponsors: SponsorFindings['items'] }) {
  return (
    <CountsPlot
      points={sponsors.map(({ sponsorId, grade, name, attempts, passes }) => ({
        key: sponsorId,
        label: `${grade} ${name}`,
        part: passes,
        of: attempts,
      }))}
      ofLabel="attempts of their candidates"
      partLabel="of these GO"
      lineLabel="the share of all together"
      label="Passes against attempts, a dot a sponsor; the counts stand in the list of sponsors"
    />
  )
}
