import { useMutation, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import type { UnitLevel, UnitLevels } from '#contract/soldiers/levels.ts'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import { levelsQuery, saveLevels } from '../../../api/soldiers/levels.ts'
import { Button } from '../../../ui/button.tsx'
import { Failure } from '../../../ui/failure.tsx'
import { TextField } from '../../../ui/field.tsx'
import { capital, listed } from '../../../words/format-number.ts'
import { wrongAt } from '../wrong-at.ts'
import { BEGINNINGS, begunWith, renamed, withLevel, withoutLevel } from './edit-levels.ts'

interface LevelsFormProps {
  said: UnitLevels
  units: readonly Unit[]
  onDone: () => void
}

/** What the levels of the tree are called; nothing holds before it is stored. */
export function LevelsForm({ said, units, onDone }: LevelsFormProps) {
  const client = useQueryClient()
  const [levels, setLevels] = useState(said.levels)
  const inUse = new Set(units.map(({ kind }) => kind))
  const saving = useMutation({
    mutationFn: () => saveLevels({ levels, version: said.version }),
    onSuccess: (saved) => {
      client.setQueryData(levelsQuery.queryKey, saved)
      onDone()
    },
  })
  const wrong = wrongAt(saving.error)
  const change = (at: number, level: UnitLevel) => setLevels(levels.map((one, index) => (index === at ? level : one)))
  return (
    <form
      className="people-form"
      onSubmit={(event) => {
        event.preventDefault()
        saving.mutate()
      }}
    >
      <p className="muted">
        From the top down, as in the middle of a sentence. Headings, forms, files and prints say these words; units keep
        their level when its word changes. You can begin with{' '}
        {BEGINNINGS.map((beginning) => (
          <Button
            key={beginning.join()}
            kind="quiet"
            className="unit-beginning"
            onClick={() => setLevels(begunWith(levels, inUse, beginning))}
          >
            {listed(beginning.map(([one]) => one))}
          </Button>
        ))}
      </p>
      <ol className="unit-levels">
        {levels.map((level, at) => (
          <li key={level.code}>
            <TextField
              label={`Level ${at + 1}, one`}
              required
              maxLength={60}
              autoComplete="off"
              value={level.one}
              error={wrong(`/levels/${at}/one`)}
              onChange={(event) => change(at, renamed(level, event.target.value))}
            />
            <TextField
              label={`Level ${at + 1}, more than one`}
              required
              maxLength={60}
              autoComplete="off"
              value={level.many}
              error={wrong(`/levels/${at}/many`)}
              onChange={(event) => change(at, { ...level, many: event.target.value })}
            />
            <label className="unit-compared">
              <input
                type="radio"
                name="compared"
                checked={level.compared}
                onChange={() => setLevels(levels.map((one, index) => ({ ...one, compared: index === at })))}
              />{' '}
              findings compare {level.many || 'these'}
            </label>
            {inUse.has(level.code) || levels.length === 1 ? (
              <span className="muted">{inUse.has(level.code) ? 'units are of it' : 'the only one'}</span>
            ) : (
              <Button
                kind="quiet"
                aria-label={`Take out level ${at + 1}, ${level.one}`}
                onClick={() => setLevels(withoutLevel(levels, at))}
              >
                Take out
              </Button>
            )}
          </li>
        ))}
      </ol>
      <AddLevel onAdd={(one) => setLevels(withLevel(levels, one))} full={levels.length >= 10} />
      {saving.error && <Failure error={saving.error} />}
      <div className="people-buttons">
        <Button type="submit" kind="main" disabled={saving.isPending}>
          Store the words
        </Button>
        <Button onClick={onDone}>Cancel</Button>
      </div>
    </form>
  )
}

function AddLevel({ onAdd, full }: { onAdd: (one: string) => void; full: boolean }) {
  const [one, setOne] = useState('')
  const add = () => {
    if (one.trim() === '') return
    onAdd(one.trim())
    setOne('')
  }
  if (full) return null
  return (
    <div className="unit-add-level">
      <TextField
        label="New level at the bottom"
        value={one}
        maxLength={60}
        autoComplete="off"
        hint="“squad”, “section”, “color team”"
        onChange={(event) => setOne(event.target.value)}
        onKeyDown={(event) => {
          if (event.key !== 'Enter') return
          event.preventDefault()
          add()
        }}
      />
      <Button onClick={add}>Add the level</Button>
    </div>
  )
}

/** "Battalion, company, platoon." */
export const formatLevels = ({ levels }: Pick<UnitLevels, 'levels'>): string =>
  capital(levels.map(({ one }) => one).join(', '))
