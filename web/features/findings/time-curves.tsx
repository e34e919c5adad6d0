import type { TimeToCertify } from '#contract/findings/time-to-certify.ts'
import { curvePlot, MOST_CURVES } from '../../charts/plot/curve-plot.ts'
import type { LevelWords } from '../../domain/soldiers/levels.ts'
import { counted } from '../../words/format-number.ts'
import { companyName } from './company-name.ts'
import { formatCompanies, formatCurve, formatStart } from './format-time.ts'
import { Picture } from './picture.tsx'

interface CurvesProps {
  times: TimeToCertify['items'][number]
  title: string
  byCompany: boolean
  level: LevelWords
  start: TimeToCertify['start']
  transformation: TimeToCertify['transformation']
}

/** How many are certified by which day: one curve with its interval, or one for each unit compared. */
export function Curves({ times, title, byCompany, level, start, transformation }: CurvesProps) {
  const companies = times.companies.filter(({ soldiers }) => soldiers > 0)
  const drawn = byCompany
    ? companies.map((company) => ({ name: companyName(company, level), curve: company }))
    : [{ name: 'All together', curve: times.all }]
  const left = companies.length - MOST_CURVES
  const says = byCompany
    ? `${formatCompanies(times, level)}${left > 0 ? ` ${counted(left, level.one, level.many)} more would be too many lines; the list has them.` : ''} Where curves cross or lie near each other, few soldiers stand behind each step.`
    : formatCurve(times.all, transformation)
  return (
    <Picture
      title={`${title}: certified by day`}
      note={formatStart(start)}
      plot={curvePlot(drawn, formatStart(start))}
      says={says}
      file={`time-to-certify-${times.certification}`}
      figures={{
        head: [
          'curve',
          'day',
          'in_training',
          'certified',
          'left',
          'still_waiting',
          'share_uncertified',
          'share_left',
          'low',
          'high',
        ],
        rows: drawn.flatMap(({ name, curve }) =>
          curve.points.map((point) => [
            name,
            point.day,
            point.atRisk,
            point.certified,
            point.left,
            point.censored,
            point.uncertified,
            point.leftShare,
            point.interval?.low ?? null,
            point.interval?.high ?? null,
          ]),
        ),
      }}
    />
  )
}
