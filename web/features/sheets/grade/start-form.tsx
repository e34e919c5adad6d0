import { useState } from 'react'
import { Link } from 'wouter'
import { isolated } from '#calendar/isolate.ts'
import type { Standard } from '#contract/standards/standards.ts'
import type { SheetHead } from '../../../domain/sheets/grading/sheet-head.ts'
import { armsFor, type StartChoice } from '../../../domain/sheets/grading/start-choice.ts'
import { formatBookingState, formatSponsor } from '../../../domain/test-days/format-check-in.ts'
import { Button } from '../../../ui/button.tsx'
import { SelectField, TextField } from '../../../ui/field.tsx'
import { Notice } from '../../../ui/notice.tsx'
import { Page } from '../../../ui/page.tsx'
import { capital } from '../../../words/format-number.ts'

/** The filled form, as far as the page cannot know it otherwise. */
export interface Filled {
  standard: Standard
  head: Pick<SheetHead, 'arm' | 'candidate' | 'sponsor' | 'conditions'>
}

interface StartFormProps {
  choice: StartChoice
  /** The standard that is due, where one came from there; '' otherwise. */
  asked: string
  mayGrade: boolean
  problem: string
  /** What is wrong with the clock of this device. */
  clock: React.ReactNode
  /** Where one came from. */
  back: string
  onStart: (filled: Filled) => Promise<void>
}

const CONDITIONS = [
  ['uniform', 'The right uniform is worn'],
  ['equipment', 'The equipment is serviceable'],
  ['sponsorPresent', 'The sponsor is here'],
] as const

const IN_ORDER = { uniform: true, equipment: true, sponsorPresent: true }

/** Whom, what, with which arm, and whether the conditions are met; one tap when all is in order. */
export function StartForm({ choice, asked, mayGrade, problem, clock, back, onStart }: StartFormProps) {
  const { candidate, booking, standards, purpose } = choice
  const [code, setCode] = useState((standards.find((one) => one.code === asked) ?? standards[0])?.code ?? '')
  const [chosenArm, setArm] = useState('')
  const [conditions, setConditions] = useState(booking?.checkIn ?? IN_ORDER)
  // What was found at check-in is not asked again.
  const found = booking?.checkIn ?? null
  const [asksAgain, setAsksAgain] = useState(false)
  const [number, setNumber] = useState('')
  const [name, setName] = useState('')
  const [tried, setTried] = useState(false)
  const [isStarting, setStarting] = useState(false)

  const standard = standards.find((one) => one.code === code)
  const arms = standard ? armsFor(standard, candidate) : []
  const isKnown = arms.length === 1 || (purpose === 'practice' && !arms.includes(chosenArm))
  const arm = isKnown ? (arms[0] ?? '') : arms.includes(chosenArm) ? chosenArm : ''
  const isWalkIn = candidate === null
  const missing = {
    number: isWalkIn && number.trim() === '' ? 'Give the roster number.' : null,
    name: isWalkIn && name.trim() === '' ? 'Give the family name as on the roster.' : null,
    arm: arms.length > 0 && arm === '' ? 'Choose the arm.' : null,
  }
  const isTest = purpose === 'test'
  const isOff = isTest && Object.values(conditions).includes(false)
  const start = async () => {
    setTried(true)
    if (!standard || missing.number || missing.name || missing.arm) return
    setStarting(true)
    await onStart({
      standard,
      head: {
        arm: arm || null,
        candidate: candidate ?? {
          id: null,
          rosterNumber: number.trim(),
          grade: '',
          familyName: isolated(name.trim()),
          givenName: '',
        },
        sponsor: candidate?.sponsor ?? null,
        conditions,
      },
    })
    setStarting(false)
  }
  if (!standard || !mayGrade) {
    return (
      <Page
        title="Start a sheet"
        answer={mayGrade ? 'No standard is in force for this.' : 'This account stands for nobody on the roster.'}
        why={
          mayGrade
            ? 'The training office publishes standards.'
            : 'A sheet names its grader. Ask an administrator to link the account to a soldier.'
        }
      />
    )
  }
  return (
    <Page
      title="Start a sheet"
      compact
      answer={
        candidate ? (
          <bdi>
            {candidate.grade} {candidate.familyName}, {candidate.givenName}
          </bdi>
        ) : (
          'Somebody without a booking'
        )
      }
      why={`${isTest ? '' : 'Practice: no test, in no figure. '}${candidate?.sponsor ? `${capital(formatSponsor(candidate.sponsor.name, booking?.sponsorCertified !== false))}.` : isTest && candidate ? 'No sponsor of record.' : ''}`}
    >
      <form
        className="start"
        onSubmit={(event) => {
          event.preventDefault()
          void start()
        }}
      >
        {isWalkIn && (
          <div className="start-row">
            <TextField
              label="Roster number"
              autoComplete="off"
              maxLength={40}
              value={number}
              error={tried ? missing.number : null}
              onChange={(event) => setNumber(event.target.value)}
            />
            <TextField
              label="Family name"
              autoComplete="off"
              maxLength={100}
              value={name}
              error={tried ? missing.name : null}
              hint="Both are compared with the roster when there is a network."
              onChange={(event) => setName(event.target.value)}
            />
          </div>
        )}
        <div className="start-row">
          {standards.length > 1 ? (
            <SelectField label="Standard" value={code} onChange={(event) => setCode(event.target.value)}>
              {standards.map((one) => (
                <option key={one.code} value={one.code}>
                  {one.title}
                </option>
              ))}
            </SelectField>
          ) : (
            <p className="start-standard">
              <b>{standard.title}</b>
            </p>
          )}
          {arms.length > 1 && (
            <fieldset className="choices">
              <legend>Arm{tried && missing.arm ? `: ${missing.arm}` : ''}</legend>
              {arms.map((one) => (
                <label key={one} className="choice">
                  <input type="radio" name="arm" checked={arm === one} onChange={() => setArm(one)} />
                  {one}
                </label>
              ))}
            </fieldset>
          )}
        </div>
        {isTest && found && !asksAgain && (
          <p className="start-found">
            {capital(formatBookingState({ state: 'checked in', checkIn: conditions }))}.{' '}
            <Button kind="quiet" onClick={() => setAsksAgain(true)}>
              Change
            </Button>
          </p>
        )}
        {isTest && (!found || asksAgain) && (
          <fieldset className="choices conditions">
            <legend>Conditions of the test</legend>
            {CONDITIONS.map(([key, words]) => (
              <label key={key} className="choice">
                <input
                  type="checkbox"
                  checked={conditions[key]}
                  onChange={(event) => setConditions({ ...conditions, [key]: event.target.checked })}
                />
                {words}
              </label>
            ))}
          </fieldset>
        )}
        {isOff && <p>The test can be taken all the same; its sheet is then held for the training office.</p>}
        {booking?.asSecond && (
          <p>You grade independently of the first grader; neither sees the other’s marks before both have closed.</p>
        )}
        {clock}
        {problem !== '' && (
          <Notice kind="bad">
            <p>{problem}</p>
          </Notice>
        )}
        <div className="start-buttons">
          <Button type="submit" kind="main" disabled={isStarting}>
            {isTest
              ? isOff
                ? 'Start the test as it is'
                : found
                  ? 'Start the test'
                  : 'All in order: start the test'
              : 'Start practice'}
          </Button>
          <Link href={back}>Back to the list</Link>
        </div>
      </form>
    </Page>
  )
}
