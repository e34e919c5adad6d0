import { useQuery } from '@tanstack/react-query'
import { timeToCertifyQuery } from '../../api/findings/findings-deep.ts'
import { levelsQuery } from '../../api/soldiers/levels.ts'
import { certificationsQuery } from '../../api/standards/certifications.ts'
import { comparedLevel } from '../../domain/soldiers/levels.ts'
import { certificationTitle } from '../../domain/standards/titles.ts'
import { paths } from '../../paths.ts'
import { SelectField } from '../../ui/field.tsx'
import { Section } from '../../ui/section.tsx'
import { useFilters } from '../../ui/use-filters.ts'
import { counted } from '../../words/format-number.ts'
import { FindingPage } from './finding-page.tsx'
import { formatCompanies, formatLeftOut, formatTests, formatTime, formatTimeWhy } from './format-time.ts'
import { NoneFound } from './none-found.tsx'
import { Companies } from './time-companies.tsx'
import { Curves } from './time-curves.tsx'
import { Steps, Tests } from './time-steps.tsx'
import { useFinding } from './use-finding.ts'

/** How long it takes to be certified the first time, all together or by company, or whatever level the unit compares. */
export default function TimePage() {
  const finding = useFinding()
  const [choice, setChoice] = useFilters(['certification', 'start', 'curves'])
  const terms = useQuery(certificationsQuery).data ?? []
  const { attempts: _, ...filters } = finding.filters
  const level = comparedLevel(useQuery(levelsQuery).data?.levels)
  const query = useQuery(timeToCertifyQuery({ ...filters, start: choice.start }))
  const items = query.data?.items
  const shown =
    items?.find(({ certification }) => certification === choice.certification) ??
    [...(items ?? [])].sort((a, b) => b.all.soldiers - a.all.soldiers)[0]
  const titleOf = (code: string) => certificationTitle(terms, code)
  const start = query.data?.start ?? 'first-sponsor'
  const title = shown ? titleOf(shown.certification) : ''

  return (
    <FindingPage
      here={paths.timeToCertify}
      title="Time to certify"
      finding={finding}
      query={query}
      withAttempts={false}
      answer={items && formatTime(shown?.all, title, start)}
      why={items && formatTimeWhy(shown?.all)}
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
            <option value="">from the first day with a sponsor</option>
            <option value="first-attempt">from the first attempt</option>
          </SelectField>
          <SelectField
            label="Curves"
            value={choice.curves}
            onChange={(event) => setChoice({ curves: event.target.value })}
          >
            <option value="">All together</option>
            <option value="company">By {level.one}</option>
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
            level={level}
            start={start}
            transformation={query.data.transformation}
          />
          <Section title="Tests it took" note={formatTests(shown.all)}>
            <Tests tests={shown.all.tests} />
          </Section>
          <Section title={`By ${level.one}`} note={formatCompanies(shown, level)}>
            <Companies times={shown} level={level} />
          </Section>
          <Section title="The curve in figures" note="all together">
            <details className="on-demand">
              <summary>{counted(shown.all.points.length, 'step')}</summary>
              <Steps points={shown.all.points} />
            </details>
          </Section>
          <p className="rests-on">{formatLeftOut(shown.leftOut)}</p>
        </>
      )}
      {items && !(shown && shown.all.soldiers > 0) && (
        <NoneFound title="Time to certify">Nobody began within these filters who was not certified before.</NoneFound>
      )}
    </FindingPage>
  )
}
