import { Link } from 'wouter'
import type { StartChoice } from '../../../domain/sheets/grading/start-choice.ts'
import { formatSponsor } from '../../../domain/test-days/format-check-in.ts'
import { Button } from '../../../ui/button.tsx'
import { Notice } from '../../../ui/notice.tsx'
import { Page } from '../../../ui/page.tsx'
import { capital } from '../../../words/format-number.ts'
import { PracticeChoice } from '../practise/practice-choice.tsx'
import { ConditionFields, StandardFields, WalkInFields } from './start-fields.tsx'
import { type Filled, useStartForm } from './use-start-form.ts'

interface StartFormProps {
  choice: StartChoice
  /** The standard that is due, and its measures to drill, where one came from there; '' and none otherwise. */
  asked: string
  toDrill: readonly string[]
  mayGrade: boolean
  problem: string
  /** What is wrong with the clock of this device. */
  clock: React.ReactNode
  /** Where one came from. */
  back: string
  onStart: (filled: Filled) => Promise<void>
}

/** Whom, what, with which arm, and whether the conditions are met; one tap when all is in order. */
export function StartForm({ choice, asked, toDrill, mayGrade, problem, clock, back, onStart }: StartFormProps) {
  const { candidate, booking, standards, purpose } = choice
  const fields = useStartForm(choice, { standard: asked, toDrill }, onStart)
  const { standard } = fields
  const found = booking?.checkIn ?? null
  const isTest = purpose === 'test'
  const isOff = isTest && Object.values(fields.conditions).includes(false)
  if (!standard || !mayGrade) return <NothingToStart mayGrade={mayGrade} />
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
      why={formatWhom(choice)}
    >
      <form
        className="start"
        onSubmit={(event) => {
          event.preventDefault()
          void fields.start()
        }}
      >
        {candidate === null && <WalkInFields fields={fields} />}
        <StandardFields fields={fields} standard={standard} standards={standards} />
        {isTest ? (
          <ConditionFields fields={fields} found={found} />
        ) : (
          <PracticeChoice
            standard={standard}
            chosen={fields.chosen}
            tried={fields.tried}
            onChoose={fields.setMeasures}
          />
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
          <Button type="submit" kind="main" disabled={fields.isStarting}>
            {formatStart(isTest, isOff, found !== null)}
          </Button>
          <Link href={back}>Back to the list</Link>
        </div>
      </form>
    </Page>
  )
}

function NothingToStart({ mayGrade }: { mayGrade: boolean }) {
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

const formatWhom = ({ candidate, booking, purpose }: StartChoice): string => {
  const kind = purpose === 'test' ? '' : 'Practice: no test, in no figure. '
  if (candidate?.sponsor) {
    return `${kind}${capital(formatSponsor(candidate.sponsor.name, booking?.sponsorCertified !== false))}.`
  }
  return `${kind}${purpose === 'test' && candidate ? 'No sponsor of record.' : ''}`
}

const formatStart = (isTest: boolean, isOff: boolean, isChecked: boolean): string => {
  if (!isTest) return 'Start practice'
  if (isOff) return 'Start the test as it is'
  return isChecked ? 'Start the test' : 'All in order: start the test'
}
