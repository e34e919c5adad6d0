import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import type { ArmsAndGrades } from '#contract/arms-and-grades/arms-and-grades.ts'
import { listsQuery, listsUseQuery, saveLists } from '../../api/soldiers/arms-and-grades.ts'
import { Button } from '../../ui/button.tsx'
import { Disclosure } from '../../ui/disclosure.tsx'
import { Failure } from '../../ui/failure.tsx'
import { Notice } from '../../ui/notice.tsx'
import { Section } from '../../ui/section.tsx'
import { capital, countedInWords } from '../../words/format-number.ts'
import { BEGINNINGS } from './beginnings.ts'
import { begunWith } from './edit-entries.ts'
import { EntryRows } from './entry-rows.tsx'

const countsOf = (entries: readonly { code: string; soldiers: number }[] = []) =>
  new Map(entries.map(({ code, soldiers }) => [code, soldiers]))

/** Both lists as one changes them; nothing holds before it is stored. */
export function ListsForm({ lists, onSaved }: { lists: ArmsAndGrades; onSaved: () => void }) {
  const client = useQueryClient()
  const use = useQuery(listsUseQuery).data
  const [grades, setGrades] = useState(lists.grades)
  const [arms, setArms] = useState(lists.arms)
  const isChanged = JSON.stringify([grades, arms]) !== JSON.stringify([lists.grades, lists.arms])
  const unconfirmed = [...grades, ...arms].filter(({ confirmed }) => !confirmed).length
  const confirmAll = () => {
    setGrades(grades.map((grade) => ({ ...grade, confirmed: true })))
    setArms(arms.map((arm) => ({ ...arm, confirmed: true })))
  }
  const saving = useMutation({
    mutationFn: () => saveLists({ grades, arms, version: lists.version }),
    onSuccess: (saved) => {
      client.setQueryData(listsQuery.queryKey, saved)
      onSaved()
    },
  })
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault()
        saving.mutate()
      }}
    >
      {unconfirmed > 0 && <Unconfirmed count={unconfirmed} onConfirm={confirmAll} />}
      <Section title="Grades" note="the lowest first; Alt and an arrow key move one">
        <EntryRows
          kind="grade"
          entries={grades}
          onEntries={setGrades}
          make={(code) => ({ code, name: '', officer: false, confirmed: true })}
          soldiers={countsOf(use?.grades)}
        >
          {(grade, change) => (
            <label className="lists-officer">
              <input
                type="checkbox"
                data-part="officer"
                checked={grade.officer}
                onChange={(event) => change({ ...grade, officer: event.target.checked })}
              />{' '}
              {grade.code} is an officer
            </label>
          )}
        </EntryRows>
      </Section>
      <Section title="What is carried" note="of whatever the unit has; leave it empty where that is nothing">
        <EntryRows
          kind="thing carried"
          entries={arms}
          onEntries={setArms}
          make={(code) => ({ code, name: '', confirmed: true })}
          soldiers={countsOf(use?.arms)}
        />
      </Section>
      <Beginnings
        isOpen={lists.grades.length + lists.arms.length === 0}
        onBegin={(beginning) => {
          setGrades(begunWith(grades, beginning.grades))
          setArms(begunWith(arms, beginning.arms))
        }}
      />
      {saving.error && <Failure error={saving.error} />}
      <p className="lists-save">
        <Button type="submit" kind="main" disabled={!isChanged || saving.isPending}>
          Store the lists
        </Button>
        {isChanged && (
          <Button
            onClick={() => {
              setGrades(lists.grades)
              setArms(lists.arms)
            }}
          >
            Leave them as they were
          </Button>
        )}
      </p>
    </form>
  )
}

interface BeginningsProps {
  isOpen: boolean
  onBegin: (beginning: Pick<ArmsAndGrades, 'grades' | 'arms'>) => void
}

function Beginnings({ isOpen, onBegin }: BeginningsProps) {
  return (
    <Disclosure
      title="Start from a ready-made list"
      note="common practice; check it against your own regulations"
      open={isOpen}
    >
      <p className="lists-beginnings">
        {BEGINNINGS.map(({ title, ...beginning }) => (
          <Button
            key={title}
            onClick={() =>
              onBegin({
                grades: beginning.grades.map(([code, name, officer]) => ({
                  code,
                  name,
                  officer: officer !== undefined,
                  confirmed: true,
                })),
                arms: beginning.arms.map(([code, name]) => ({ code, name, confirmed: true })),
              })
            }
          >
            {title}
          </Button>
        ))}
      </p>
    </Disclosure>
  )
}

function Unconfirmed({ count, onConfirm }: { count: number; onConfirm: () => void }) {
  return (
    <Notice>
      <p>
        {capital(countedInWords(count, 'entry', 'entries'))} came in with something else, and nobody has said that{' '}
        {count === 1 ? 'it is' : 'they are'} right. Where one is a slip, correct whoever has it under People first, then
        take it out; put the rest in the unit’s order.
      </p>
      <Button onClick={onConfirm}>All are right</Button>
    </Notice>
  )
}
