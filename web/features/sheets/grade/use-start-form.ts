import { useState } from 'react'
import { isolated } from '#calendar/isolate.ts'
import type { Standard } from '#contract/standards/standards.ts'
import { chosenOf } from '../../../domain/coaching/running-practice.ts'
import type { SheetHead } from '../../../domain/sheets/grading/sheet-head.ts'
import { armsFor, type StartChoice } from '../../../domain/sheets/grading/start-choice.ts'

/** The filled form, as far as the page cannot know it otherwise. */
export interface Filled {
  standard: Standard
  head: Pick<SheetHead, 'arm' | 'candidate' | 'sponsor' | 'conditions'>
  /** Practice of these measures alone; null: a sheet of the whole standard. */
  measures: readonly string[] | null
}

interface Asked {
  /** The standard that is due, and its measures to drill, where one came from there; '' and none otherwise. */
  standard: string
  toDrill: readonly string[]
}

const IN_ORDER = { uniform: true, equipment: true, sponsorPresent: true }

/** Who is named by hand: somebody without a booking. */
const useNamedByHand = () => {
  const [number, setNumber] = useState('')
  const [name, setName] = useState('')
  return { number, setNumber, name, setName }
}

/** What the form that starts a sheet holds, what is missing in it once somebody tried, and starting. */
export const useStartForm = (choice: StartChoice, asked: Asked, onStart: (filled: Filled) => Promise<void>) => {
  const { candidate, booking, standards, purpose } = choice
  const [code, setCode] = useState((standards.find((one) => one.code === asked.standard) ?? standards[0])?.code ?? '')
  const [chosenArm, setArm] = useState('')
  const [conditions, setConditions] = useState(booking?.checkIn ?? IN_ORDER)
  const byHand = useNamedByHand()
  const [measures, setMeasures] = useState<readonly string[] | null>(asked.toDrill.length > 0 ? asked.toDrill : null)
  const [tried, setTried] = useState(false)
  const [isStarting, setStarting] = useState(false)

  const standard = standards.find((one) => one.code === code)
  const arms = standard ? armsFor(standard, candidate) : []
  const isKnown = arms.length === 1 || (purpose === 'practice' && !arms.includes(chosenArm))
  const arm = isKnown ? (arms[0] ?? '') : arms.includes(chosenArm) ? chosenArm : ''
  const isWalkIn = candidate === null
  const missing = {
    number: isWalkIn && byHand.number.trim() === '' ? 'Give the roster number.' : null,
    name: isWalkIn && byHand.name.trim() === '' ? 'Give the family name as on the roster.' : null,
    arm: arms.length > 0 && arm === '' ? 'Choose the arm.' : null,
  }
  const chosen = measures && standard ? chosenOf(standard, measures) : null
  const named = {
    id: null,
    rosterNumber: byHand.number.trim(),
    grade: '',
    familyName: isolated(byHand.name.trim()),
    givenName: '',
  }
  const start = async () => {
    setTried(true)
    if (!standard || missing.number || missing.name || missing.arm || chosen?.length === 0) return
    setStarting(true)
    const head = {
      arm: arm || null,
      candidate: candidate ?? named,
      sponsor: candidate?.sponsor ?? null,
      conditions,
    }
    await onStart({ standard, head, measures: chosen })
    setStarting(false)
  }
  const wrong = tried ? missing : { number: null, name: null, arm: null }
  const fields = { code, setCode, arm, setArm, conditions, setConditions, ...byHand, chosen, setMeasures }
  return { ...fields, standard, arms, wrong, tried, isStarting, start }
}

/** The form with what it holds. */
export type StartFields = ReturnType<typeof useStartForm>
