import { useQuery } from '@tanstack/react-query'
import type { TimeToCertify } from '#contract/findings/time-to-certify.ts'
import { certificationsQuery } from '../../api/certifications.ts'
import { timeToCertifyQuery } from '../../api/findings-deep.ts'
import { paths } from '../../app/paths.ts'
import { curvePlot, MOST_CURVES } from '../../charts/plot/curve-plot.ts'
import { certificationTitle } from '../../model/titles.ts'
import { SelectField } from '../../ui/field.tsx'
import { Section } from '../../ui/section.tsx'
import { Table } from '../../ui/table.tsx'
import { useFilters } from '../../ui/use-filters.ts'
import { counted, figure } from '../../words/say-number.ts'
import { sayShare, sayShares } from '../../words/say-share.ts'
import { FindingPage } from './finding-page.tsx'
import { NoneFound } from './none-found.tsx'
import { Picture } from './picture.tsx'
import { sayCompanies, sayCurve, sayLeftOut, sayMedianInterval, sayStart, sayTime, sayTimeWhy } from './say-time.ts'
import { useFinding } from './use-finding.ts'

type Times = TimeToCertify['items'][number]
type Curve = Times['all']

/** How long it takes to be certified the first time, all together or by company. */
export default function TimePage() {
  const finding = useFinding()
  const [choice, setChoice] = useFilters(['certification', 'start', 'curves'])
  const terms = useQuery(certificationsQuery).data ?? []
  const { attempts: _, ...filters } = finding.filters
  const query = useQuery(timeToCertifyQuery({ ...filters, start: choice.start }))
  const items = query.data?.items
  const shown =
    items?.find(({ certification }) => certification === choice.certification) ??
    [...(items ?? [])].sort((a, b) => b.all.soldiers - a.all.soldiers)[0]
  const titleOf = (code: string) => certificationTitle(terms, code)
  const start = query.data?.start ?? 'first-attempt'
  const title = shown ? titleOf(shown.certification) : ''

  return (
    <FindingPage
      here={paths.timeToCertify}
      title="Time to certify"
      finding={finding}
      query={query}
      withAttempts={false}
      answer={items && sayTime(shown?.all, title, start)}
      why={items && sayTimeWhy(shown?.all)}
      choices={
        <>
          <SelectField
            label="Certification"
            value={shown?.certification ?? ''}
            onChange={(event) => setChoice({ certification: event.target.value })}
          >
            {items?.map(({ certification }) => (
              <option key={certification} value={certification}>
                {titleOf(certification)}
              </option>
            ))}
          </SelectField>
          <SelectField
            label="Days run"
            value={choice.start}
            onChange={(event) => setChoice({ start: event.target.value })}
          >
            <option value="">from the first attempt</option>
            <option value="first-sponsor">from the first day with a sponsor</option>
          </SelectField>
          <SelectField
            label="Curves"
            value={choice.curves}
            onChange={(event) => setChoice({ curves: event.target.value })}
          >
            <option value="">All together</option>
            <option value="company">By company</option>
          </SelectField>
        </>
      }
    >
      {shown && query.data && shown.all.soldiers > 0 && (
        <>
          <Curves
            times={shown}
            title={title}
            byCompany={choice.curves === 'company'}
            start={start}
            transformation={query.data.transformation}
          />
          <Section title="By company" note={sayCompanies(shown)}>
            <Companies times={shown} />
          </Section>
          <Section title="The curve in figures" note="all together">
            <details className="on-demand">
              <summary>{counted(shown.all.points.length, 'step')}</summary>
              <Steps points={shown.all.points} />
            </details>
          </Section>
          <p className="rests-on">{sayLeftOut(shown.leftOut)}</p>
        </>
      )}
      {items && !(shown && shown.all.soldiers > 0) && (
        <NoneFound title="Time to certify">
          Nobody had a first attempt within these filters who was not certified before.
        </NoneFound>
      )}
    </FindingPage>
  )
}

interface CurvesProps {
  times: Times
  title: string
  byCompany: boolean
  start: TimeToCertify['start']
  transformation: TimeToCertify['transformation']
}

const nameOf = ({ name }: Pick<Times['companies'][number], 'name'>): string => name ?? 'In no company'

function Curves({ times, title, byCompany, start, transformation }: CurvesProps) {
  const companies = times.companies.filter(({ soldiers }) => soldiers > 0)
  const drawn = byCompany
    ? companies.map((company) => ({ name: nameOf(company), curve: company }))
    : [{ name: 'All together', curve: times.all }]
  const left = companies.length - MOST_CURVES
  const says = byCompany
    ? `${sayCompanies(times)}${left > 0 ? ` ${counted(left, 'company', 'companies')} more would be too many lines; the list has them.` : ''} Where curves cross or lie near each other, few soldiers stand behind each step.`
    : sayCurve(times.all, transformation)
  return (
    <Picture
      title={`${title}: certified by day`}
      note={sayStart(start)}
      plot={curvePlot(drawn, sayStart(start))}
      says={says}
      file={`time-to-certify-${times.certification}`}
      figures={{
        head: ['curve', 'day', 'in_training', 'certified', 'not_seen_longer', 'share_uncertified', 'low', 'high'],
        rows: drawn.flatMap(({ name, curve }) =>
          curve.points.map((point) => [
            name,
            point.day,
            point.atRisk,
            point.certified,
            point.censored,
            point.uncertified,
            point.interval?.low ?? null,
            point.interval?.high ?? null,
          ]),
        ),
      }}
    />
  )
}

function Companies({ times }: { times: Times }) {
  const rows = [
    ...times.companies.map((curve) => ({ key: curve.unitId ?? '', name: nameOf(curve), curve: curve as Curve })),
    { key: 'all', name: 'All together', curve: times.all },
  ]
  return (
    <Table
      caption="By company"
      rows={rows}
      rowKey={({ key }) => key}
      columns={[
        { head: 'Company', cell: ({ name }) => <b>{name}</b> },
        { head: 'Soldiers', numeric: true, cell: ({ curve }) => figure(curve.soldiers) },
        { head: 'Certified', numeric: true, cell: ({ curve }) => figure(curve.certified) },
        { head: 'Still waiting', numeric: true, cell: ({ curve }) => figure(curve.waiting) },
        { head: 'Left', numeric: true, cell: ({ curve }) => figure(curve.left) },
        {
          head: 'Days until half are certified',
          numeric: true,
          cell: ({ curve }) => (curve.median === null ? 'not reached' : figure(Math.round(curve.median))),
        },
        { head: 'Where that lies', numeric: true, cell: ({ curve }) => sayMedianInterval(curve.medianInterval) },
      ]}
    />
  )
}

function Steps({ points }: Pick<Curve, 'points'>) {
  return (
    <Table
      caption="Steps of the curve"
      rows={points}
      rowKey={({ day }) => String(day)}
      columns={[
        { head: 'Day', numeric: true, cell: ({ day }) => <b>{figure(day)}</b> },
        { head: 'In training', numeric: true, cell: ({ atRisk }) => figure(atRisk) },
        { head: 'Certified that day', numeric: true, cell: ({ certified }) => figure(certified) },
        { head: 'Not seen longer', numeric: true, cell: ({ censored }) => (censored > 0 ? figure(censored) : '') },
        { head: 'Certified by then', numeric: true, tight: true, cell: ({ uncertified }) => sayShare(1 - uncertified) },
        {
          head: 'Where that lies',
          numeric: true,
          tight: true,
          cell: ({ interval }) => interval && sayShares({ low: 1 - interval.high, high: 1 - interval.low }),
        },
      ]}
    />
  )
}
