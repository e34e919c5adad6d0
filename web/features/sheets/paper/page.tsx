import { useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import { standardsQuery } from '../../../api/standards/standards.ts'
import { versionsOf } from '../../../domain/standards/titles.ts'
import { paths } from '../../../paths.ts'
import { Button } from '../../../ui/button.tsx'
import { SelectField } from '../../../ui/field.tsx'
import { Page } from '../../../ui/page.tsx'
import { useFilters } from '../../../ui/use-filters.ts'
import { BlankSheet } from './blank-sheet.tsx'
import { CallList } from './call-list.tsx'
import './paper.css'

/** What to print for the day the battery dies: the call list and a blank grade sheet of a standard, for one arm. */
export default function PaperPage({ id }: { id: string }) {
  const [filters, setFilters] = useFilters(['arm', 'version'])
  const query = useQuery(standardsQuery)
  // A draft is printed where its number is asked for, and offered nowhere.
  const versions = (query.data ? versionsOf(query.data, id) : []).filter(
    ({ publishedAt, version }) => publishedAt || String(version) === filters.version,
  )
  const standard = versions.find(({ version }) => String(version) === filters.version) ?? versions[0]
  if (!query.data || !standard) {
    return (
      <Page
        title="Paper sheets"
        answer={query.data && 'No published standard has this name.'}
        why={query.data && <Link href={paths.standards}>All standards</Link>}
        error={query.error}
        onRetry={query.refetch}
      />
    )
  }
  const arm = standard.arms.find((known) => known === filters.arm) ?? standard.arms[0]
  return (
    <Page
      title={`Paper for ${standard.title}`}
      compact
      answer="The call list and a blank grade sheet, to print for the day the battery dies."
      why="What is written here is entered afterwards under Enter a sheet. Both fit letter and A4."
      controls={
        <>
          {standard.arms.length > 1 && (
            <SelectField label="Arm" value={arm} onChange={(event) => setFilters({ arm: event.target.value })}>
              {standard.arms.map((known) => (
                <option key={known}>{known}</option>
              ))}
            </SelectField>
          )}
          {versions.length > 1 && (
            <SelectField
              label="Version"
              value={String(standard.version)}
              onChange={(event) => setFilters({ version: event.target.value })}
            >
              {versions.map(({ version }) => (
                <option key={version} value={version}>
                  Version {version}
                </option>
              ))}
            </SelectField>
          )}
          <Button kind="main" onClick={() => window.print()}>
            Print both
          </Button>
        </>
      }
    >
      <CallList standard={standard} arm={arm} />
      <BlankSheet standard={standard} arm={arm} />
    </Page>
  )
}
