import { useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import { unitsQuery } from '../../api/soldiers/units.ts'
import { certificationsQuery } from '../../api/standards/certifications.ts'
import { standardsQuery, termsQuery } from '../../api/standards/standards.ts'
import { useMay } from '../../api/use-may.ts'
import { fullUnitName } from '../../domain/soldiers/unit-tree.ts'
import { standardTitle } from '../../domain/standards/titles.ts'
import { paths } from '../../paths.ts'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { formatDay } from '../../words/format-day.ts'
import { listed } from '../../words/format-number.ts'
import { today as todayIn } from '../../words/today.ts'
import { formatTerms } from './format-terms.ts'
import { TermsForm } from './terms-form.tsx'
import './standards.css'
import './draft.css'

/** The terms of a certification over time; new ones from a day. */
export default function TermsPage({ code }: { code: string }) {
  const query = useQuery(certificationsQuery)
  const standards = useQuery(standardsQuery).data ?? []
  const units = useQuery(unitsQuery).data ?? []
  const mayManage = useMay('manage-standards')
  const today = todayIn()
  const certification = query.data?.find((one) => one.code === code)
  const terms = useQuery(termsQuery(certification?.id ?? '')).data ?? []
  if (!certification) {
    return (
      <Page
        title="Terms"
        answer={query.data && 'There is no such certification here.'}
        why={query.data && <Link href={paths.standards}>All standards and certifications</Link>}
        error={query.error}
        onRetry={query.refetch}
      />
    )
  }
  const inForce = terms.find(({ effectiveFrom }) => effectiveFrom <= today)
  return (
    <Page
      title={`${certification.title}, terms`}
      answer={`${certification.title} requires ${listed(certification.standards.map((one) => standardTitle(standards, one)))}.`}
      why="What it requires never changes; how long it lasts, when a retest is due and of whom it is required may, from a day on. What was earned before keeps its last day."
    >
      <Section title="Terms" note="the latest first">
        <ul className="standard-list">
          {terms.map((one) => (
            <li key={one.effectiveFrom}>
              <b>from {formatDay(one.effectiveFrom, today)}</b>
              <span className="muted">
                {one === inForce ? 'in force' : one.effectiveFrom > today ? 'to come' : 'before'}
              </span>
              <p>{formatTerms(one, (id) => fullUnitName(units, id))}</p>
            </li>
          ))}
        </ul>
      </Section>
      {mayManage && (
        <Section title="New terms">
          <TermsForm key={terms[0]?.effectiveFrom} latest={terms[0] ?? certification} units={units} today={today} />
        </Section>
      )}
    </Page>
  )
}
