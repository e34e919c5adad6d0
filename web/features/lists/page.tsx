import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { ArmsAndGrades } from '#contract/arms-and-grades/arms-and-grades.ts'
import { listsQuery } from '../../api/soldiers/arms-and-grades.ts'
import { useMay } from '../../api/use-may.ts'
import { Empty } from '../../ui/empty.tsx'
import { Notice } from '../../ui/notice.tsx'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { Table } from '../../ui/table.tsx'
import { figure } from '../../words/format-number.ts'
import { ListsForm } from './lists-form.tsx'
import './lists.css'

/** The unit's own grades and what it carries, in its own order: every form and every file goes by them. */
export default function ListsPage() {
  const query = useQuery(listsQuery)
  const mayManage = useMay('manage-people')
  const [saved, setSaved] = useState(false)
  const lists = query.data
  return (
    <Page
      title="Grades and what is carried"
      answer={lists && formatLists(lists)}
      why="Forms offer them in this order, and a file that names another one asks about it."
      error={lists ? null : query.error}
      onRetry={query.refetch}
    >
      {saved && (
        <Notice kind="good">
          <p>The lists are stored.</p>
        </Notice>
      )}
      {lists && mayManage && <ListsForm key={lists.version} lists={lists} onSaved={() => setSaved(true)} />}
      {lists && !mayManage && (
        <Section title="In the order of the unit">
          {lists.grades.length + lists.arms.length === 0 ? (
            <Empty>
              <p>The training office enters them.</p>
            </Empty>
          ) : (
            <Table
              caption="Grades and what is carried"
              rows={[
                ...lists.grades.map((grade) => ({ ...grade, kind: grade.officer ? 'officer' : 'grade' })),
                ...lists.arms.map((arm) => ({ ...arm, kind: 'arm' })),
              ]}
              rowKey={({ kind, code }) => `${kind} ${code}`}
              columns={[
                { head: 'Short', tight: true, cell: ({ code }) => <b>{code}</b> },
                { head: 'In full', bare: true, cell: ({ name }) => name },
                { head: 'What it is', tight: true, cell: ({ kind }) => kind },
              ]}
            />
          )}
        </Section>
      )}
    </Page>
  )
}

const count = (number: number, one: string, many: string): string =>
  number === 1 ? `one ${one}` : `${number === 0 ? 'no' : figure(number)} ${many}`

/** "12 grades and 3 arms; 2 are new and wait for you.", "5 grades, and nothing is carried." */
function formatLists({ grades, arms }: Pick<ArmsAndGrades, 'grades' | 'arms'>): string {
  if (grades.length + arms.length === 0) return 'Nothing is in the lists yet.'
  const open = [...grades, ...arms].filter(({ confirmed }) => !confirmed).length
  const carried = arms.length === 0 ? ', and nothing is carried' : ` and ${count(arms.length, 'arm', 'arms')}`
  const said = count(grades.length, 'grade', 'grades') + carried
  const ends =
    open === 0 ? '.' : `; ${open === 1 ? 'one is new and waits' : `${figure(open)} are new and wait`} for you.`
  return said.charAt(0).toUpperCase() + said.slice(1) + ends
}
