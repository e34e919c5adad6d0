import type { PracticeBody } from '#contract/coaching/practices.ts'
import type { RunningPractice } from '../../domain/coaching/running-practice.ts'

/** Practice of chosen measures on this device: under way, closed and waiting to be sent, or refused by the server. */
export interface KeptPractice {
  readonly accountId: string
  /** What that account is called, for whoever else holds this phone. */
  readonly accountName: string
  /** The client's id: every try to send goes under it. */
  readonly id: string
  readonly state: 'running' | 'waiting' | 'refused'
  readonly practice: RunningPractice
  /** Counts the changes, so that one window does not overwrite what another wrote. */
  readonly revision: number
  /** Fixed when it is closed, so that every try sends the same; null: it is under way. */
  readonly body: PracticeBody | null
  /** Why it was refused. */
  readonly message: string
}
