import type { SheetBody, StoredSheet } from '#contract/sheets/sheets.ts'
import type { RunningSheet } from '../../domain/sheets/grading/running-sheet.ts'

/**
 * A sheet on this device: being graded, closed and waiting to be sent, refused by the server, or acknowledged by it (then
 * it is only still here to be looked at).
 */
export interface KeptSheet {
  readonly accountId: string
  /** What that account is called, for whoever else holds this phone; not on sheets begun before it was kept. */
  readonly accountName?: string
  /** The client's id: every try to send goes under it. */
  readonly id: string
  readonly state: 'running' | 'waiting' | 'refused' | 'stored'
  readonly sheet: RunningSheet
  /** Counts the changes, so that one window does not overwrite what another wrote. */
  readonly revision: number
  /** When it was closed on this device; sheets go out in this order. */
  readonly closedAt: string | null
  /** Fixed from the first time it is sent, so that every try sends the same. */
  readonly body: SheetBody | null
  /** Why it still waits, or was refused. */
  readonly message: string
  /** The status of the answer that refused it. */
  readonly refusedWith: number | null
  readonly tries: number
  /** What the server answered, once it has stored it. */
  readonly answer: StoredSheet | null
}

/** Is it not known to be on the server? */
export const isUnsent = ({ state }: Pick<KeptSheet, 'state'>): boolean => state !== 'stored'
